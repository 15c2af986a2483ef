namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the third shapes that once were the last: how ten organisations head and mark their lists.</summary>
internal static class FormerlyLastWords3
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => FormerlyLastWords3Romance.French,
        Tongue.Spanish => FormerlyLastWords3Romance.Spanish,
        Tongue.Italian => FormerlyLastWords3Romance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Device type|Instrument|Equipment group
        Maker: Make|Manufacturer|Brand
        Model: Model no.|Model|Type
        Serial: Serial number|Serial #|Serial
        Code: Equipment no.|Asset number|Ident. no.
        Status: Availability|Status|Condition code
        Place: Location|Storage location|Kept in
        Size: Nominal size|Diaphragm size
        Day: Last cal.|Cal. performed on|Date calibrated
        Value: Sensitivity|Open-circuit sensitivity|Sens. as calibrated
        Level: Sound pressure level|Calibrator level|SPL measured
        Result: Measured|Actual value|Calibration value
        U: Exp. uncertainty|Meas. uncertainty
        K: Coverage factor k
        Lab: Calibrated by|Cal. lab|Calibration laboratory
        Number: Certificate number|Cert. ref.|Cal. cert.
        Hz: Cal. frequency|Frequency
        Pressure: Barometric pressure|Static pressure
        Temperature: Ambient temperature|Air temperature
        Humidity: Rel. humidity|Air humidity
        Due: Next cal.|Cal. due|Recal. date
        Unit: Unit of measure|Unit
        Nominal: Nominal sens.|Sensitivity acc. to data sheet
        Remark: Comments|Remarks
        OneMicrophone: Microphone|Condenser microphone
        ManyMicrophone: Microphones
        OnePreamplifier: Preamplifier|Mic preamp
        ManyPreamplifier: Preamplifiers
        OneCalibrator: Sound calibrator|Sound level calibrator
        ManyCalibrator: Sound calibrators
        InService: in use|available|ready for use
        Away: on loan|rented out|at the calibration lab
        OutOfService: out of order|faulty|in repair
        Lost: lost|whereabouts unknown
        Retired: withdrawn|written off|scrapped
        At: at 250 Hz
        Point: Monitoring point
        Since: In operation since
        AirportTitle: Noise monitoring terminals: microphones fitted
        AsOfDay: Last updated
        Description: Description
        ContractorTitle: Test equipment of the acoustics group
        CheckedBy: List checked by
        Line: Line
        Rate: Daily rate (EUR)
        DeliveryNote: Delivery note
        Customer: Customer
        CustomerName: Flight noise group
        Sent: Date of dispatch
        Thanks: Please check the delivery for completeness on receipt.
        Cal: Cal.
        CalDate: date
        Owned: Our measuring equipment
        Lower: Lower limit
        Upper: Upper limit
        Verdict: Verdict
        Passed: passed
        Months12: Cycle (months)
        Department: Department
        Log: Calibration log
        Stock: Equipment
        Custodian: Custodian
        Compact: YYYYMMDD
        Marking: FOR OFFICIAL USE ONLY
        """;

    private const string German = """
        Kind: Gerätetyp|Bezeichnung|Gerätegruppe
        Maker: Hersteller|Marke|Herstellerfirma
        Model: Typ|Modell-Nr.|Typbezeichnung
        Serial: Seriennummer|Ser.Nr.|SN
        Code: Geräte-Nr.|Prüfmittelnummer|Ident-Nr.
        Status: Verfügbarkeit|Gerätestatus|Zustand
        Place: Ort|Lagerplatz|Raum
        Size: Nenngröße|Membrandurchmesser
        Day: Letzte Kal.|Kalibriert am|Datum der Kalibrierung
        Value: Empfindlichkeit|Leerlaufempfindlichkeit|Gemessene Empfindlichkeit
        Level: Schalldruckpegel|Kalibratorpegel|Pegel gemessen
        Result: Messwert|Istwert|Kalibrierwert
        U: Erw. Messunsicherheit|Messunsicherheit
        K: Erweiterungsfaktor k
        Lab: Kalibriert durch|Kalibrierlabor|Kal.-Labor
        Number: Kalibrierschein|Kal.-Schein Nr.|Zertifikatsnummer
        Hz: Kalibrierfrequenz|Frequenz
        Pressure: Barometrischer Druck|Luftdruck
        Temperature: Umgebungstemperatur|Lufttemperatur
        Humidity: Rel. Luftfeuchte|Luftfeuchtigkeit
        Due: Nächste Kal.|Kal. fällig|Wiederkalibrierung am
        Unit: Maßeinheit|Einheit
        Nominal: Nennempf.|Empfindlichkeit lt. Datenblatt
        Remark: Kommentar|Bemerkungen
        OneMicrophone: Mikrofon|Kondensatormikrofon
        ManyMicrophone: Mikrofone
        OnePreamplifier: Vorverstärker|Mikrofonvorverstärker
        ManyPreamplifier: Vorverstärker
        OneCalibrator: Schallkalibrator|Schallpegelkalibrator
        ManyCalibrator: Schallkalibratoren
        InService: in Gebrauch|verfügbar|einsatzbereit
        Away: ausgeliehen|vermietet|im Kalibrierlabor
        OutOfService: außer Betrieb|fehlerhaft|in Reparatur
        Lost: verloren|Verbleib unbekannt
        Retired: ausgesondert|abgeschrieben|verschrottet
        At: bei 250 Hz
        Point: Messstelle
        Since: In Betrieb seit
        AirportTitle: Fluglärmmessstellen: eingebaute Mikrofone
        AsOfDay: Stand
        Description: Beschreibung
        ContractorTitle: Messmittel der Gruppe Akustik
        CheckedBy: Liste geprüft von
        Line: Lfd. Nr.
        Rate: Tagessatz (EUR)
        DeliveryNote: Lieferschein
        Customer: Kunde
        CustomerName: Arbeitsgruppe Fluglärm
        Sent: Versanddatum
        Thanks: Bitte prüfen Sie die Lieferung bei Erhalt auf Vollständigkeit.
        Cal: Kal.
        CalDate: Datum
        Owned: Unsere Messgeräte
        Lower: Untere Grenze
        Upper: Obere Grenze
        Verdict: Bewertung
        Passed: i. O.
        Months12: Zyklus (Monate)
        Department: Abteilung
        Log: Kalibrierprotokoll
        Stock: Geräte
        Custodian: Verwahrer
        Compact: JJJJMMTT
        Marking: NUR FÜR DEN DIENSTGEBRAUCH
        """;

    private const string Dutch = """
        Kind: Soort apparaat|Benaming|Apparaatgroep
        Maker: Merk|Fabrikant|Producent
        Model: Type|Model|Typeaanduiding
        Serial: Serienummer|Serienr.|SN
        Code: Apparaatnr.|Inventarisnummer|Meetmiddelnummer
        Status: Beschikbaarheid|Status|Conditie
        Place: Locatie|Opslagplaats|Ruimte
        Size: Nominale maat|Membraandiameter
        Day: Laatste kal.|Gekalibreerd op|Datum van kalibratie
        Value: Gevoeligheid|Openklemgevoeligheid|Gemeten gevoeligheid
        Level: Geluiddrukniveau|Kalibratorniveau|Gemeten niveau
        Result: Gemeten waarde|Werkelijke waarde|Kalibratiewaarde
        U: Uitgebreide onzekerheid|Meetonzekerheid
        K: Dekkingsfactor k
        Lab: Gekalibreerd door|Kalibratielaboratorium|Kal.-lab
        Number: Certificaatnummer|Kalibratiecertificaat|Cert. nr.
        Hz: Kalibratiefrequentie|Frequentie
        Pressure: Barometerdruk|Luchtdruk
        Temperature: Omgevingstemperatuur|Luchttemperatuur
        Humidity: Rel. vochtigheid|Luchtvochtigheid
        Due: Volgende kal.|Kalibratie vóór|Herkalibratie op
        Unit: Meeteenheid|Eenheid
        Nominal: Nom. gevoeligheid|Gevoeligheid volgens datablad
        Remark: Commentaar|Opmerkingen
        OneMicrophone: Microfoon|Condensatormicrofoon
        ManyMicrophone: Microfoons
        OnePreamplifier: Voorversterker|Microfoonvoorversterker
        ManyPreamplifier: Voorversterkers
        OneCalibrator: Akoestische kalibrator|Geluidkalibrator
        ManyCalibrator: Akoestische kalibratoren
        InService: in gebruik|beschikbaar|inzetbaar
        Away: uitgeleend|verhuurd|bij het kalibratielab
        OutOfService: buiten gebruik|defect|in reparatie
        Lost: verloren|onvindbaar
        Retired: afgevoerd|afgeschreven|afgedankt
        At: bij 250 Hz
        Point: Meetpunt
        Since: In bedrijf sinds
        AirportTitle: Geluidmeetposten: geplaatste microfoons
        AsOfDay: Bijgewerkt
        Description: Omschrijving
        ContractorTitle: Meetmiddelen van de groep akoestiek
        CheckedBy: Lijst gecontroleerd door
        Line: Regel
        Rate: Dagtarief (EUR)
        DeliveryNote: Pakbon
        Customer: Klant
        CustomerName: Werkgroep vliegtuiggeluid
        Sent: Verzenddatum
        Thanks: Controleer de levering bij ontvangst.
        Cal: Kal.
        CalDate: datum
        Owned: Onze meetapparatuur
        Lower: Ondergrens
        Upper: Bovengrens
        Verdict: Oordeel
        Passed: akkoord
        Months12: Cyclus (maanden)
        Department: Afdeling
        Log: Kalibratielogboek
        Stock: Apparatuur
        Custodian: Beheerder
        Compact: JJJJMMDD
        Marking: ALLEEN VOOR INTERN GEBRUIK
        """;
}
