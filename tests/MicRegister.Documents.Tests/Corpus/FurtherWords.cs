namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the further shapes: short forms and house words of laboratories.</summary>
internal static class FurtherWords
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => French,
        Tongue.Spanish => Spanish,
        Tongue.Italian => Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Type of device|Device
        Maker: Brand|Mfg.|Made by
        Model: Model name|Model designation
        Serial: Ser. #|Ser no|Serial nr.
        Code: Tag no.|Asset ID
        Status: Availability|Present state
        Place: Kept in|Room / shelf
        Day: Calibrated|Date cal.|Last cal. date
        Value: M|Open-circuit sensitivity|Sensitivity of mic.
        Level: Lp|Sound pressure level
        U: Exp. unc.|Meas. uncertainty
        K: Cov. factor
        Lab: Calibrated by|Cal lab
        Number: Cert no|Certificate ref.
        Hz: Freq.|Nom. frequency
        Due: Next cal.|Recal due
        Remark: Comments|Info
        Gain: Amplification
        OneMicrophone: Mic.|Microphone cartridge
        ManyMicrophone: Mic. cartridges
        OnePreamplifier: Mic preamp
        ManyPreamplifier: Mic preamps
        OneCalibrator: SPL calibrator|Sound level calibrator
        ManyCalibrator: Sound level calibrators
        InService: operational|ready
        Away: at cal lab|sent to lab
        OutOfService: needs repair|blocked
        Lost: not found
        Retired: withdrawn|taken off inventory
        """;

    private const string German = """
        Kind: Geräteklasse|Messmittel
        Maker: Marke|Herst.
        Model: Typ-Bez.|Modellname
        Serial: SNr.|Ser.Nr|Seriennr.
        Code: Inv.Nr|Equipment-Nr.|Anlagen-Nr.
        Status: Verfügbarkeit|Gerätezustand
        Place: Raum|Lagerplatz / Fach
        Day: kalibriert|Kal. am|Datum Kal.
        Value: M|Leerlauf-Empfindlichkeit|Übertr.-faktor
        Level: Lp|SPL
        U: erw. Unsicherheit|Mess-U
        K: Erw.-Faktor
        Lab: kalibriert durch|Kal.-Labor
        Number: Schein Nr.|Zert.-Nr.
        Hz: Freq.|Nennfrequenz
        Due: nächste Kal.|Rekal. fällig
        Remark: Bem.|Notiz
        Gain: Gain
        OneMicrophone: Mikrofonkapsel|Mikro.
        ManyMicrophone: Mikrofonkapseln
        OnePreamplifier: Mikro-Vorverstärker|Mik.-VV
        ManyPreamplifier: Mikro-Vorverstärker
        OneCalibrator: Schallpegelkalibrator|Pegelkalibrator
        ManyCalibrator: Schallpegelkalibratoren
        InService: betriebsbereit|nutzbar
        Away: beim Kalibrierlabor|außer Haus
        OutOfService: reparaturbedürftig|Sperre
        Lost: nicht auffindbar
        Retired: ausgeschieden|abgeschrieben und entsorgt
        """;

    private const string French = """
        Kind: Nature|Moyen de mesure
        Maker: Fab.|Constr.
        Model: Mod.|Nom du modèle
        Serial: N° sér.|Série n°
        Code: N° inv.|Code interne
        Status: Disponibilité|État actuel
        Place: Local|Salle / armoire
        Day: Étalonné|Date dernier étal.
        Value: M|Sensibilité en circuit ouvert|Sens.
        Level: Lp|Niveau de pression
        U: Incert. élargie|Incert.
        K: Facteur k
        Lab: Étalonné par|Labo d'étal.
        Number: N° certif.|Réf. certificat
        Hz: Fréq.|Fréquence nominale
        Due: Proch. étal.|À étalonner avant le
        Remark: Commentaires|Info
        Gain: Amplification
        OneMicrophone: Capsule microphonique|Mic.
        ManyMicrophone: Capsules microphoniques
        OnePreamplifier: Préampli micro
        ManyPreamplifier: Préamplis micro
        OneCalibrator: Calibreur de niveau sonore|Source étalon
        ManyCalibrator: Calibreurs de niveau sonore
        InService: bon état|prêt à l'emploi
        Away: chez le laboratoire|envoyé à l'étalonnage
        OutOfService: à dépanner|bloqué
        Lost: non retrouvé
        Retired: retiré de l'inventaire|éliminé
        """;

    private const string Spanish = """
        Kind: Clase de equipo|Tipo de aparato
        Maker: Fabr.|Casa fabricante
        Model: Nombre del modelo|Modelo/tipo
        Serial: N.º de fábrica|Núm. serie
        Code: Núm. inventario|Cód. interno
        Status: Disponibilidad|Estado actual
        Place: Sala|Sala / armario
        Day: Calibrado|Fecha última cal.
        Value: M|Sensibilidad en circuito abierto|Sens.
        Level: Lp|Nivel de presión
        U: Incert. expandida|Incert.
        K: Factor k
        Lab: Calibrado por|Lab. calibración
        Number: Núm. certif.|Ref. certificado
        Hz: Frec.|Frecuencia nominal
        Due: Próx. calibración|Calibrar antes de
        Remark: Comentarios|Info
        Gain: Amplificación
        OneMicrophone: Cápsula microfónica|Mic.
        ManyMicrophone: Cápsulas microfónicas
        OnePreamplifier: Preamplificador de micrófono|Previo de micrófono
        ManyPreamplifier: Preamplificadores de micrófono
        OneCalibrator: Calibrador de nivel sonoro
        ManyCalibrator: Calibradores de nivel sonoro
        InService: buen estado|listo para uso
        Away: en el laboratorio de calibración|fuera por calibración
        OutOfService: por reparar|bloqueado
        Lost: no localizado
        Retired: retirado del inventario|eliminado
        """;

    private const string Italian = """
        Kind: Genere|Tipo di strumento
        Maker: Fabbr.|Casa costruttrice
        Model: Nome modello|Mod./tipo
        Serial: Matr.|N° serie
        Code: N° inv.|Cod. interno
        Status: Disponibilità|Stato attuale
        Place: Locale|Sala / armadio
        Day: Tarato|Data ultima tar.
        Value: M|Sensibilità a circuito aperto|Sens.
        Level: Lp|Livello di pressione
        U: Incert. estesa|Incert.
        K: Fattore k
        Lab: Tarato da|Lab. taratura
        Number: N° certif.|Rif. certificato
        Hz: Freq.|Frequenza nominale
        Due: Pross. taratura|Da tarare entro
        Remark: Commenti|Info
        Gain: Amplificazione
        OneMicrophone: Capsula microfonica|Mic.
        ManyMicrophone: Capsule microfoniche
        OnePreamplifier: Preamplificatore microfonico|Preampli
        ManyPreamplifier: Preamplificatori microfonici
        OneCalibrator: Calibratore di livello sonoro
        ManyCalibrator: Calibratori di livello sonoro
        InService: buono stato|pronto all'uso
        Away: presso il laboratorio di taratura|spedito a tarare
        OutOfService: da riparare|bloccato
        Lost: non trovato
        Retired: tolto dall'inventario|alienato
        """;

    private const string Dutch = """
        Kind: Apparaatsoort|Meetmiddel
        Maker: Fabr.|Gemaakt door
        Model: Modelnaam|Type/model
        Serial: Ser.nr.|Serie nr
        Code: Inv. nr|Intern nr.
        Status: Beschikbaarheid|Huidige toestand
        Place: Ruimte|Ruimte / kast
        Day: Gekalibr.|Datum laatste kal.
        Value: M|Gevoeligheid onbelast|Gev.
        Level: Lp|Geluidsniveau
        U: Uitgebr. onzekerheid|Onzekerh.
        K: Factor k
        Lab: Gekalibreerd door|Kal.lab
        Number: Cert.nr.|Certificaatref.
        Hz: Freq.|Nominale frequentie
        Due: Volg. kalibratie|Kalibreren vóór
        Remark: Toelichting|Info
        Gain: Gain
        OneMicrophone: Microfoonkapsel|Mic.
        ManyMicrophone: Microfoonkapsels
        OnePreamplifier: Mic-voorversterker
        ManyPreamplifier: Mic-voorversterkers
        OneCalibrator: Geluidsniveaukalibrator
        ManyCalibrator: Geluidsniveaukalibratoren
        InService: inzetbaar|klaar voor gebruik
        Away: bij het kalibratielab|opgestuurd voor kalibratie
        OutOfService: te repareren|geblokkeerd
        Lost: niet gevonden
        Retired: uit de inventaris|weggedaan
        """;
}
