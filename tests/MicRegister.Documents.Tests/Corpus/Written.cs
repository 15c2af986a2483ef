namespace MicRegister.Documents.Tests.Corpus;

/// <summary>The words of each language, one line a key, the usual one first.</summary>
internal static class Written
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => WrittenRomance.French,
        Tongue.Spanish => WrittenRomance.Spanish,
        Tongue.Italian => WrittenRomance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Category|Instrument|Equipment|Kind
        Maker: Manufacturer|Maker|Make|Mfr.
        Model: Model|Type|Model no.|Type no.
        Serial: Serial no.|S/N|Serial number|SN|Ser. no.
        Code: Inventory no.|Asset no.|Asset tag|Inv. no.
        Status: Status|Condition|State
        Place: Location|Stored at|Place
        Size: Size|Diameter|Nominal diameter
        Day: Calibration date|Calibrated on|Last calibration|Cal. date|Date of calibration
        Value: Sensitivity|Sens.|Measured sensitivity
        Level: Level|SPL|Measured level
        Result: Value|Result
        U: Uncertainty|U|Expanded uncertainty
        K: k|Coverage factor
        Lab: Laboratory|Cal. laboratory|Lab
        Number: Certificate no.|Certificate|Cert. no.
        Hz: Frequency|Test frequency|f
        Pressure: Static pressure|Ambient pressure|Air pressure
        Temperature: Temperature|Temp.
        Humidity: Relative humidity|Humidity|RH
        Due: Next calibration|Calibration due|Due date
        Unit: Unit|Units
        Quantity: Quantity|Parameter|Measurand
        Nominal: Nominal sensitivity
        Remark: Remarks|Notes|Comment
        Price: Purchase price (EUR)
        Key: Room key
        Bought: Purchase date
        Initials: Responsible|Resp.
        OneMicrophone: Microphone|Measurement microphone|Mic
        ManyMicrophone: Microphones|Measurement microphones|Mics
        OnePreamplifier: Preamplifier|Preamp
        ManyPreamplifier: Preamplifiers|Preamps
        OneCalibrator: Calibrator|Sound calibrator|Acoustic calibrator
        ManyCalibrator: Calibrators|Sound calibrators
        OnePistonphone: Pistonphone
        ManyPistonphone: Pistonphones
        OnePlate: Ground plate|Ground board
        ManyPlate: Ground plates
        OneChannel: Recorder channel|Input channel
        ManyChannel: Recorder channels
        InService: in use|OK|in service|active
        Away: at calibration|on loan|lent out
        OutOfService: defective|broken|out of order|do not use
        Lost: lost|missing
        Retired: scrapped|retired|disposed of
        Months: January|February|March|April|May|June|July|August|September|October|November|December
        Inch: inch
        Old: OLD do not use
        Total: Total
        Page: Page
        Inventory: Equipment list
        History: Calibration history
        Before: Check before
        After: Check after
        Station: Station
        Placed: Placed at
        Found: As found
        Left: As left
        Lists: Lists
        Hint: All values are re 20 µPa or 1 V/Pa; ask the lab before changing anything.
        """;

    private const string German = """
        Kind: Geräteart|Art|Kategorie|Gerät
        Maker: Hersteller|Fabrikat
        Model: Typ|Modell|Typenbezeichnung
        Serial: Seriennummer|Serien-Nr.|Ser.-Nr.|S/N|Fabriknummer
        Code: Inventarnummer|Inv.-Nr.|Inventar-Nr.
        Status: Status|Zustand
        Place: Standort|Lagerort|Aufbewahrungsort
        Size: Durchmesser|Größe|Nenndurchmesser
        Day: Kalibrierdatum|Kalibriert am|Letzte Kalibrierung|Kal.-Datum
        Value: Empfindlichkeit|Übertragungsfaktor|Empf.|Übertragungskoeffizient
        Level: Pegel|Schalldruckpegel
        Result: Messwert|Wert|Ergebnis
        U: Messunsicherheit|Unsicherheit|U
        K: k|Erweiterungsfaktor
        Lab: Kalibrierlabor|Labor|Kalibrierstelle
        Number: Kalibrierschein-Nr.|Kalibrierschein|Zertifikat-Nr.
        Hz: Frequenz|Messfrequenz|f
        Pressure: Luftdruck|statischer Druck
        Temperature: Temperatur|Temp.
        Humidity: Luftfeuchte|rel. Feuchte|Feuchte
        Due: Nächste Kalibrierung|Kalibrierung fällig|Fällig am
        Unit: Einheit
        Quantity: Messgröße|Kenngröße
        Nominal: Nennempfindlichkeit
        Remark: Bemerkungen|Bemerkung|Anmerkung
        Price: Anschaffungspreis (EUR)
        Key: Raumschlüssel
        Bought: Kaufdatum
        Initials: Verantwortlich|Kürzel
        OneMicrophone: Mikrofon|Messmikrofon|Mikrophon
        ManyMicrophone: Mikrofone|Messmikrofone
        OnePreamplifier: Vorverstärker|Mikrofonvorverstärker|Impedanzwandler
        ManyPreamplifier: Vorverstärker|Mikrofonvorverstärker
        OneCalibrator: Kalibrator|Schallkalibrator|Akustischer Kalibrator
        ManyCalibrator: Kalibratoren|Schallkalibratoren
        OnePistonphone: Pistonfon|Pistonphon
        ManyPistonphone: Pistonfone
        OnePlate: Bodenplatte|Grundplatte
        ManyPlate: Bodenplatten
        OneChannel: Messkanal|Rekorderkanal
        ManyChannel: Messkanäle
        InService: in Betrieb|i. O.|verfügbar|aktiv
        Away: in Kalibrierung|verliehen|ausgeliehen
        OutOfService: defekt|gesperrt|außer Betrieb
        Lost: verschollen|verloren|vermisst
        Retired: ausgemustert|ausgesondert|verschrottet
        Months: Januar|Februar|März|April|Mai|Juni|Juli|August|September|Oktober|November|Dezember
        Inch: Zoll
        Old: ALT nicht verwenden
        Total: Summe
        Page: Seite
        Inventory: Geräteliste
        History: Kalibrierhistorie
        Before: Prüfung vorher
        After: Prüfung nachher
        Station: Messpunkt
        Placed: Aufgebaut um
        Found: vor Justage
        Left: nach Justage
        Lists: Listen
        Hint: Alle Werte re 20 µPa bzw. 1 V/Pa; Änderungen nur durch das Labor.
        """;

    private const string Dutch = """
        Kind: Categorie|Soort|Apparaat
        Maker: Fabrikant|Merk
        Model: Type|Model|Typenummer
        Serial: Serienummer|Serienr.|S/N
        Code: Inventarisnummer|Inventarisnr.|Inv.nr.
        Status: Status|Toestand
        Place: Locatie|Plaats|Bewaarplaats
        Size: Diameter|Maat
        Day: Kalibratiedatum|Gekalibreerd op|Laatste kalibratie
        Value: Gevoeligheid
        Level: Niveau|Geluidsdrukniveau
        Result: Waarde|Resultaat
        U: Onzekerheid|Meetonzekerheid|U
        K: k|Dekkingsfactor
        Lab: Laboratorium|Kalibratielaboratorium
        Number: Certificaatnummer|Certificaatnr.|Certificaat
        Hz: Frequentie|f
        Pressure: Luchtdruk|Statische druk
        Temperature: Temperatuur|Temp.
        Humidity: Luchtvochtigheid|Rel. vochtigheid
        Due: Volgende kalibratie|Vervaldatum
        Unit: Eenheid
        Quantity: Grootheid
        Nominal: Nominale gevoeligheid
        Remark: Opmerkingen|Opmerking
        Price: Aankoopprijs (EUR)
        Key: Sleutel
        Bought: Aankoopdatum
        Initials: Verantwoordelijke
        OneMicrophone: Microfoon|Meetmicrofoon
        ManyMicrophone: Microfoons|Meetmicrofoons
        OnePreamplifier: Voorversterker|Microfoonvoorversterker
        ManyPreamplifier: Voorversterkers
        OneCalibrator: Kalibrator|Geluidskalibrator|Akoestische kalibrator
        ManyCalibrator: Kalibratoren|Geluidskalibratoren
        OnePistonphone: Pistonfoon
        ManyPistonphone: Pistonfoons
        OnePlate: Grondplaat|Bodemplaat
        ManyPlate: Grondplaten
        OneChannel: Recorderkanaal|Meetkanaal
        ManyChannel: Meetkanalen
        InService: in gebruik|operationeel|actief
        Away: in kalibratie|uitgeleend
        OutOfService: defect|buiten gebruik|kapot
        Lost: vermist|zoek|verloren
        Retired: afgevoerd|afgeschreven|gesloopt
        Months: januari|februari|maart|april|mei|juni|juli|augustus|september|oktober|november|december
        Inch: inch
        Old: OUD niet gebruiken
        Total: Totaal
        Page: Pagina
        Inventory: Apparatenlijst
        History: Kalibratiegeschiedenis
        Before: Controle vooraf
        After: Controle achteraf
        Station: Meetpunt
        Placed: Geplaatst om
        Found: voor justering
        Left: na justering
        Lists: Lijsten
        Hint: Alle waarden re 20 µPa of 1 V/Pa; wijzigingen alleen door het lab.
        """;
}
