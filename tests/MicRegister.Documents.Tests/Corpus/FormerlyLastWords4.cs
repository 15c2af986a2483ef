namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the fourth shapes that once were the last: formal ones first, then those that people use among themselves.</summary>
internal static class FormerlyLastWords4
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => FormerlyLastWords4Romance.French,
        Tongue.Spanish => FormerlyLastWords4Romance.Spanish,
        Tongue.Italian => FormerlyLastWords4Romance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Kind of equipment|Item type|What
        Maker: Manufacturing company|Firm|Manuf.
        Model: Manufacturer's type|Model code|Mod.
        Serial: Manufacturing serial no.|Factory no.|Ser.
        Code: Inventory code|House no.|Inv #
        Status: Operational status|Usage|Stat.
        Place: Place of use|Where kept|Loc.
        Size: Size of capsule|Cartridge size|Inches
        Day: Date of last calibration|Cal'd|Cal. on
        Value: Microphone sensitivity|Measured sens.|Mic sens.
        Level: Sound pressure level generated|Output SPL|Tone level
        Result: Result of calibration|Calibrated value|Meas. val.
        U: Measurement uncertainty|Uncertainty of result|Unc.
        K: Coverage factor (k)|k factor
        Lab: Calibrating laboratory|Cal. house|Cal. at
        Number: No. of certificate|Certificate ID|Cert.
        Hz: Frequency of calibration|Test freq.|Freq
        Pressure: Atmospheric pressure|Barometer|Press.
        Temperature: Temperature of air|Air temp.|Temp
        Humidity: Humidity of air|Air RH|r.h.
        Due: Date of next calibration|Due for cal.|Next due
        Unit: Measuring unit|Units used|U.o.M.
        Remark: Supplementary remarks|Misc.|Rem.
        OneMicrophone: Microphone capsule|Test mic
        ManyMicrophone: Microphone capsules|Test mics
        OnePreamplifier: Microphone preamplifier|Preamp stage
        OneCalibrator: Acoustic calibrator|SPL source
        ManyCalibrator: Acoustic calibrators|SPL sources
        InService: in regular use|working|fine
        Away: sent out for calibration|on hire|away
        OutOfService: unfit for use|needs fixing|u/s
        Lost: reported missing|gone missing|cannot be found
        Retired: removed from inventory|binned|thrown out
        AirTitle: noise monitoring group
        AsOfDay: Position as at
        Row: No.
        DaysLeft: Days left
        Spare: Spare unit
        Yes: yes
        No: no
        Stock: Hire stock
        Barcode: Barcode
        DayRate: Per day (EUR)
        WeekRate: Per week (EUR)
        NewValue: Replacement value (EUR)
        Accessories: Comes with
        Windscreen: windscreen
        CarryCase: carrying case
        Terms: Terms
        Term1: Prices without VAT. Minimum period of hire: one day.
        Term2: The hirer answers for loss and damage.
        SubNo: Sub-number
        Class: Asset class
        AcqDate: Acquisition date
        AcqValue: Acquisition value (EUR)
        BookValue: Book value (EUR)
        Life: Useful life (years)
        Supplier: Supplier
        OrderNo: Order number
        Holder: Holding unit
        Stocktaken: Last stocktaking
        Funding: Source of funds
        Schedule: Calibration schedule
        Section: Section
        Booked: Slot booked
        Checks: Field checks
        Weather: Weather
        Dry: dry
        Windy: windy
        ToDo: To do
        ToDo1: order batteries
        ToDo2: ask about the new windscreens
        ToDo3: tidy the cable drawer
        Subtotal: Subtotal
        CertRegister: Certificates on file
        IssuedOn: Issued on
        Pages: Pages
        FileName: File
        Forms: Forms
        Form: Equipment form
        Signature: Signature
        Position: Position
        Loose: Single items
        """;

    private const string German = """
        Kind: Art des Geräts|Gerätekategorie|Was
        Maker: Hersteller (Firma)|Firma|Herstell.
        Model: Typenbezeichnung des Herstellers|Modellbez.|Ausführung
        Serial: Fertigungsnummer|Werknummer|Ser-Nr
        Code: Inventarkennung|Gerätekennung|Inv#
        Status: Betriebszustand|Verwendung|Stat.
        Place: Einsatzort|Wo|Aufbewahrung
        Size: Kapselgröße|Kapseldurchmesser|Zoll
        Day: Datum der letzten Kalibrierung|Kalibriert|Kal. am
        Value: Mikrofonempfindlichkeit|Gem. Empfindlichkeit|Mik-Empf.
        Level: Abgegebener Schalldruckpegel|Ausgangs-SPL|Tonpegel
        Result: Ergebnis der Kalibrierung|Kal.-Wert|Gem. Wert
        U: Unsicherheit der Messung|Messunsich.|Uns.
        K: Erweiterungsfaktor (k)|k-Faktor
        Lab: Labor der Kalibrierung|Kal.-Stelle|Kal. bei
        Number: Nummer des Kalibrierscheins|Schein-Nr.|KS-Nr.
        Hz: Frequenz der Kalibrierung|Prüffreq.|Freq
        Pressure: Atmosphärischer Druck|Barometer|Luftdr.
        Temperature: Temperatur der Luft|Lufttemp.|Temp
        Humidity: Feuchte der Luft|Rel. Feuchte Luft|rF
        Due: Termin der nächsten Kalibrierung|Wieder fällig|Nächster Termin
        Unit: Einheit des Messwerts|Messeinheit|Einh.
        Remark: Ergänzende Bemerkungen|Sonstiges|Bem.
        OneMicrophone: Mikrofonkapsel|Messmikro
        ManyMicrophone: Mikrofonkapseln|Messmikros
        OnePreamplifier: Mikrofon-Vorverstärker|VV Mikro
        OneCalibrator: Schallpegelkalibrator|Kali
        ManyCalibrator: Schallpegelkalibratoren|Kalis
        InService: im Einsatz|geht|läuft
        Away: zur Kalibrierung eingesandt|beim Kunden|außer Haus
        OutOfService: nicht verwendungsfähig|kaputt|muss repariert werden
        Lost: als vermisst gemeldet|weg|nicht auffindbar
        Retired: aus dem Bestand genommen|entsorgt|weggeworfen
        AirTitle: Fluglärmüberwachung
        AsOfDay: Stand vom
        Row: Zeile
        DaysLeft: Tage übrig
        Spare: Reservegerät
        Yes: ja
        No: nein
        Stock: Mietbestand
        Barcode: Strichcode
        DayRate: Pro Tag (EUR)
        WeekRate: Pro Woche (EUR)
        NewValue: Wiederbeschaffungswert (EUR)
        Accessories: Zubehör
        Windscreen: Windschirm
        CarryCase: Tragekoffer
        Terms: Bedingungen
        Term1: Preise ohne Mehrwertsteuer. Mindestmietdauer: ein Tag.
        Term2: Der Mieter haftet für Verlust und Beschädigung.
        SubNo: Unternummer
        Class: Anlagenklasse
        AcqDate: Anschaffungsdatum
        AcqValue: Anschaffungswert (EUR)
        BookValue: Buchwert (EUR)
        Life: Nutzungsdauer (Jahre)
        Supplier: Lieferant
        OrderNo: Bestellnummer
        Holder: Besitzende Einheit
        Stocktaken: Letzte Inventur
        Funding: Mittelherkunft
        Schedule: Kalibrierplanung
        Section: Sachgebiet
        Booked: Termin gebucht
        Checks: Feldkontrollen
        Weather: Wetter
        Dry: trocken
        Windy: windig
        ToDo: Zu tun
        ToDo1: Batterien bestellen
        ToDo2: wegen der neuen Windschirme nachfragen
        ToDo3: Kabelschublade aufräumen
        Subtotal: Zwischensumme
        CertRegister: Abgelegte Kalibrierscheine
        IssuedOn: Ausgestellt am
        Pages: Seiten
        FileName: Datei
        Forms: Formulare
        Form: Geräteblatt
        Signature: Unterschrift
        Position: Position
        Loose: Einzelstücke
        """;

    private const string Dutch = """
        Kind: Aard van het apparaat|Apparaatsoort|Wat
        Maker: Fabricerend bedrijf|Firma|Fabr.
        Model: Typeaanduiding fabrikant|Uitvoering|Mod.
        Serial: Fabricagenummer|Fabr.nr.|Ser.nr
        Code: Inventariscode|Eigen nr.|Inv#
        Status: Bedrijfstoestand|Gebruik|Stat.
        Place: Plaats van gebruik|Waar|Opbergplek
        Size: Kapselmaat|Kapseldiameter|Duim
        Day: Datum van laatste kalibratie|Gekalibreerd|Gekal. op
        Value: Gevoeligheid van de microfoon|Gem. gevoeligheid|Gev. mic
        Level: Afgegeven geluidsdrukniveau|SPL uit|Toonniveau
        Result: Uitkomst van de kalibratie|Gekalibreerde waarde|Gem. waarde
        U: Onzekerheid van het resultaat|Meetonzek.|Onz.
        K: Dekkingsfactor (k)|k-factor
        Lab: Uitvoerend kalibratielaboratorium|Kal.lab|Gekal. bij
        Number: Nummer kalibratiecertificaat|Certif.nr|KC-nr.
        Hz: Frequentie van de kalibratie|Testfreq.|Freq
        Pressure: Atmosferische druk|Barometer|Luchtdr.
        Temperature: Temperatuur van de lucht|Luchttemp.|Temp
        Humidity: Vochtigheid van de lucht|RV lucht|RV
        Due: Datum volgende kalibratie|Weer kalibreren|Volgende keer
        Unit: Eenheid van het resultaat|Maateenheid|Eenh.
        Remark: Aanvullende opmerkingen|Overig|Opm.
        OneMicrophone: Microfoonkapsel|Meetmic
        ManyMicrophone: Microfoonkapsels|Meetmics
        OnePreamplifier: Voorversterker voor microfoon|VV mic
        OneCalibrator: Geluidsniveaukalibrator|Kali
        ManyCalibrator: Geluidsniveaukalibratoren|Kali's
        InService: in dagelijks gebruik|doet het|goed
        Away: opgestuurd voor kalibratie|bij de klant|de deur uit
        OutOfService: ongeschikt voor gebruik|stuk|moet gerepareerd
        Lost: als vermist opgegeven|kwijt|niet te vinden
        Retired: uit de inventaris gehaald|weggegooid|weggedaan
        AirTitle: bewaking van vliegtuiggeluid
        AsOfDay: Stand van
        Row: Volgnr.
        DaysLeft: Dagen over
        Spare: Reserve
        Yes: ja
        No: nee
        Stock: Verhuurvoorraad
        Barcode: Streepjescode
        DayRate: Per dag (EUR)
        WeekRate: Per week (EUR)
        NewValue: Vervangingswaarde (EUR)
        Accessories: Toebehoren
        Windscreen: windkap
        CarryCase: draagkoffer
        Terms: Voorwaarden
        Term1: Prijzen zonder btw. Kortste huurperiode: een dag.
        Term2: De huurder is aansprakelijk voor verlies en schade.
        SubNo: Subnummer
        Class: Activaklasse
        AcqDate: Aanschafdatum
        AcqValue: Aanschafwaarde (EUR)
        BookValue: Boekwaarde (EUR)
        Life: Gebruiksduur (jaren)
        Supplier: Leverancier
        OrderNo: Bestelnummer
        Holder: Houdende eenheid
        Stocktaken: Laatste inventarisatie
        Funding: Herkomst middelen
        Schedule: Kalibratieplanning
        Section: Sectie
        Booked: Afspraak gemaakt
        Checks: Veldcontroles
        Weather: Weer
        Dry: droog
        Windy: winderig
        ToDo: Te doen
        ToDo1: batterijen bestellen
        ToDo2: navragen van de nieuwe windkappen
        ToDo3: kabellade opruimen
        Subtotal: Subtotaal
        CertRegister: Gearchiveerde certificaten
        IssuedOn: Afgegeven op
        Pages: Bladzijden
        FileName: Bestand
        Forms: Formulieren
        Form: Apparaatblad
        Signature: Handtekening
        Position: Positie
        Loose: Losse stukken
        """;
}
