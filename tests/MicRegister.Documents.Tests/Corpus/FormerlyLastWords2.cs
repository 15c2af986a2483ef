namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Other words for the same, for the second shapes that once were the last alone.</summary>
internal static class FormerlyLastWords2
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
        Kind: Equipment class|Sort of instrument
        Maker: Manufactured by|Producer
        Model: Model / type|Product name
        Serial: Serial-No.|Manufacturer's no.|Ser. number
        Code: Property no.|Internal no.
        Status: Usability|Current status
        Place: Home location|Room|Shelf
        Day: Date of last cal.|Calibrated (date)
        Value: Mic. sensitivity|Sensitivity (measured)|Response
        Level: Generated level|Output level
        Result: Measured value|Cal. result
        U: Uncert.|Expanded unc.
        Lab: Cal. provider|Calibration body
        Number: Calibration certificate|Cert. number
        Due: Valid until|To be calibrated by
        Remark: Note|Observations
        OneMicrophone: Measuring microphone|Condenser mic
        ManyMicrophone: Measuring microphones
        OnePreamplifier: Microphone preamplifier
        OneCalibrator: Acoustical calibrator
        ManyCalibrator: Acoustical calibrators
        InService: serviceable|in operation
        Away: in the calibration lab|handed out
        OutOfService: not working|unserviceable
        Lost: cannot be located
        Retired: discarded|struck off
        """;

    private const string German = """
        Kind: Gerätegruppe|Messmittelart
        Maker: Produzent|Hersteller/Marke
        Model: Modell/Typ|Produktbezeichnung
        Serial: Serial-Nr.|Fabr.-Nr.|Herstellnummer
        Code: Interne Nr.|Betriebsmittelnummer
        Status: Einsatzstatus|Aktueller Zustand
        Place: Zimmer|Regal|Stammplatz
        Day: Datum letzte Kalibrierung|Kalibriert (Datum)
        Value: Empfindlichkeit gemessen|Feld-Leerlauf-Übertragungsfaktor
        Level: Erzeugter Pegel|Ausgangspegel
        Result: Gemessener Wert|Kalibrierergebnis
        U: Unsich.|Erweiterte Messunsicherheit
        Lab: Kalibrierdienst|Kalibrierdienstleister
        Number: Nr. Kalibrierschein|Kalibrierzertifikat
        Due: Gültig bis|Zu kalibrieren bis
        Remark: Hinweis|Kommentar
        OneMicrophone: Messmikrophon
        ManyMicrophone: Messmikrophone
        OnePreamplifier: Mikrophonvorverstärker
        OneCalibrator: Schallpegel-Kalibrator
        ManyCalibrator: Schallpegel-Kalibratoren
        InService: in Gebrauch|funktionsfähig
        Away: extern zur Kalibrierung|ausgegeben
        OutOfService: funktionsunfähig|nicht einsatzbereit
        Lost: Verbleib unbekannt
        Retired: abgegangen|außer Dienst gestellt
        """;

    private const string French = """
        Kind: Genre d'appareil|Type de matériel
        Maker: Fabriqué par|Producteur
        Model: Modèle / type|Nom du produit
        Serial: Série|N° fabricant|No de série
        Code: N° interne|N° d'immobilisation
        Status: Aptitude|Statut actuel
        Place: Pièce|Étagère|Lieu habituel
        Day: Date du dernier étalonnage|Étalonné (date)
        Value: Sensibilité du micro|Réponse
        Level: Niveau produit|Niveau de sortie
        Result: Valeur mesurée|Résultat d'étalonnage
        U: Incert. (élargie)|Incertitude de mesure
        Lab: Prestataire d'étalonnage|Organisme
        Number: Certificat d'étalonnage|Numéro du certificat
        Due: Valable jusqu'au|À refaire le
        Remark: Note|Commentaire
        OneMicrophone: Microphone à condensateur
        ManyMicrophone: Microphones à condensateur
        OnePreamplifier: Préamplificateur de microphone
        OneCalibrator: Calibreur sonore
        ManyCalibrator: Calibreurs sonores
        InService: apte|utilisé
        Away: au laboratoire d'étalonnage|sorti en prêt
        OutOfService: inapte|ne fonctionne pas
        Lost: disparu
        Retired: sorti de l'inventaire|jeté
        """;

    private const string Spanish = """
        Kind: Grupo de equipo|Tipo de instrumento
        Maker: Productor|Fabricado por
        Model: Modelo / tipo|Nombre de producto
        Serial: N.º del fabricante|No. de serie
        Code: N.º interno|Nº de activo
        Status: Aptitud|Situación actual
        Place: Cuarto|Estante|Lugar habitual
        Day: Fecha de la última calibración|Calibrado (fecha)
        Value: Sensibilidad del micrófono|Respuesta
        Level: Nivel generado|Nivel de salida
        Result: Valor medido|Resultado de calibración
        U: Incert. (expandida)|Incertidumbre de medida
        Lab: Proveedor de calibración|Entidad
        Number: Certificado de calibración|Número del certificado
        Due: Válido hasta|A calibrar el
        Remark: Nota|Comentario
        OneMicrophone: Micrófono de condensador
        ManyMicrophone: Micrófonos de condensador
        OnePreamplifier: Preamplificador microfónico
        OneCalibrator: Calibrador de sonido
        ManyCalibrator: Calibradores de sonido
        InService: apto|utilizado
        Away: en laboratorio externo|entregado en préstamo
        OutOfService: no apto|no funciona
        Lost: desaparecido
        Retired: excluido del inventario|tirado
        """;

    private const string Italian = """
        Kind: Gruppo|Tipo di apparecchiatura
        Maker: Fabbricante|Prodotto da
        Model: Modello / tipo|Nome prodotto
        Serial: N. fabbricante|Seriale|N. di matricola
        Code: N. interno|N. cespite
        Status: Idoneità|Situazione attuale
        Place: Stanza|Scaffale|Sede abituale
        Day: Data dell'ultima taratura|Tarato (data)
        Value: Sensibilità del microfono|Risposta
        Level: Livello generato|Livello di uscita
        Result: Valore misurato|Esito taratura
        U: Incert. (estesa)|Incertezza di misura
        Lab: Ente di taratura|Fornitore taratura
        Number: Certificato di taratura|Numero del certificato
        Due: Valido fino al|Da ritarare il
        Remark: Nota|Commento
        OneMicrophone: Microfono misuratore
        ManyMicrophone: Microfoni misuratori
        OnePreamplifier: Preamplificatore per microfono
        OneCalibrator: Calibratore sonoro
        ManyCalibrator: Calibratori sonori
        InService: idoneo|utilizzato
        Away: in laboratorio esterno|dato in prestito
        OutOfService: non idoneo|non funziona
        Lost: sparito
        Retired: escluso dall'inventario|buttato
        """;

    private const string Dutch = """
        Kind: Apparaatgroep|Soort instrument
        Maker: Producent|Vervaardigd door
        Model: Model / type|Productnaam
        Serial: Fabrieksnummer|Serieno.|Nr. fabrikant
        Code: Intern nummer|Bedrijfsmiddelnr.
        Status: Inzetbaarheid|Actuele status
        Place: Kamer|Plank|Vaste plek
        Day: Datum laatste kalibratie|Gekalibreerd (datum)
        Value: Microfoongevoeligheid|Gevoeligheid gemeten
        Level: Opgewekt niveau|Uitgangsniveau
        Result: Gemeten waarde|Kalibratieresultaat
        U: Onzek. (uitgebreid)|Uitgebreide meetonzekerheid
        Lab: Kalibratiebedrijf|Kalibratie-instelling
        Number: Kalibratiecertificaat|Nummer certificaat
        Due: Geldig tot|Te kalibreren op
        Remark: Notitie|Commentaar
        OneMicrophone: Meet-microfoon
        ManyMicrophone: Meet-microfoons
        OnePreamplifier: Microfoon-voorversterker
        OneCalibrator: Akoestische ijkbron
        ManyCalibrator: Akoestische ijkbronnen
        InService: bruikbaar|functioneert
        Away: extern voor kalibratie|meegegeven
        OutOfService: onbruikbaar|werkt niet
        Lost: spoorloos
        Retired: verwijderd|uit de boeken
        """;
}
