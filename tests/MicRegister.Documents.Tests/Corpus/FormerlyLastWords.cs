namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Other words for the same, for the shapes that once were the last alone.</summary>
internal static class FormerlyLastWords
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
        Kind: Device type|Equipment type
        Model: Model number|Type designation
        Serial: Serial #|Serial|S.N.
        Place: Where|Storage location
        Day: Last cal.|Cal date|Last calibrated
        Value: Sensitivity found|Meas. sensitivity
        Lab: Calibration lab
        Number: Cert. #|Report no.
        OneMicrophone: Condenser microphone|Meas. mic
        InService: available|good
        Away: out for calibration
        OutOfService: faulty|damaged
        Retired: decommissioned|written off
        """;

    private const string German = """
        Kind: Gerätetyp|Bezeichnung
        Model: Modellbezeichnung|Type
        Serial: SN|Serien-Nummer|Ser.Nr.
        Place: Lagerplatz|Aufbewahrung
        Day: Datum der Kalibrierung|letzte Kal.
        Value: Mikrofonempfindlichkeit|Betriebsübertragungsmaß
        Lab: Prüflabor
        Number: Schein-Nr.|Kalibrierzeichen
        OneMicrophone: Kondensatormikrofon|Mikro
        InService: im Einsatz|einsatzbereit
        Away: zur Kalibrierung
        OutOfService: kaputt|beschädigt
        Retired: stillgelegt|entsorgt
        """;

    private const string French = """
        Kind: Type d'appareil|Famille
        Model: Réf. constructeur|Désignation commerciale
        Serial: S/N|Num. série
        Place: Lieu|Rangement
        Day: Étalonnage du|Date étal.
        Value: Sensibilité mesurée
        Lab: Laboratoire d'étalonnage
        Number: Certificat n°
        OneMicrophone: Micro de mesure
        InService: disponible|en usage
        Away: à l'étalonnage
        OutOfService: cassé|à réparer
        Retired: rebuté|déclassé
        """;

    private const string Spanish = """
        Kind: Clase|Aparato
        Model: Mod.|Referencia
        Serial: S/N|Serie
        Place: Almacén|Situación
        Day: Fecha calibr.|Calibrado
        Value: Sensibilidad medida
        Lab: Lab. de calibración
        Number: Certificado nº
        OneMicrophone: Micro de medida
        InService: disponible|activo
        Away: enviado a calibrar
        OutOfService: roto|estropeado
        Retired: desechado|baja
        """;

    private const string Italian = """
        Kind: Tipo apparecchio|Classe
        Model: Mod.|Sigla
        Serial: S/N|Nr. serie
        Place: Posizione|Luogo
        Day: Data taratura|Tarato
        Value: Sensibilità misurata
        Lab: Lab. di taratura
        Number: Certificato nr.
        OneMicrophone: Microfono a condensatore
        InService: disponibile|attivo
        Away: inviato a taratura
        OutOfService: rotto|danneggiato
        Retired: fuori uso definitivo|eliminato
        """;

    private const string Dutch = """
        Kind: Type apparaat|Instrument
        Model: Modelnummer|Typeaanduiding
        Serial: S.N.|Serie-nr.
        Place: Opslag|Opgeborgen in
        Day: Datum kalibratie|Gekalibreerd
        Value: Gemeten gevoeligheid
        Lab: Kalibratielab
        Number: Certificaat nr.
        OneMicrophone: Condensatormicrofoon
        InService: beschikbaar|goed
        Away: naar kalibratie
        OutOfService: stuk|beschadigd
        Retired: uit dienst|weggegooid
        """;
}
