namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the fifth shapes that once were the last: formal ones first, then spoken and short ones.</summary>
internal static class FormerlyLastWords5
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => FormerlyLastWords5Romance.French,
        Tongue.Spanish => FormerlyLastWords5Romance.Spanish,
        Tongue.Italian => FormerlyLastWords5Romance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Equipment class|Sort of device|Article
        Maker: Produced by|Brand name|Vendor (make)
        Model: Type designation|Catalogue name|Variant
        Serial: Unit serial number|Ident. of maker|Ser #
        Code: Asset identifier|Our ref.|Tag
        Status: Serviceability|Can be used?|How is it
        Place: Storage place|Whereabouts|Shelf / room
        Day: Calibrated (date)|Latest cal. date|Calibration of
        Value: Pressure sensitivity|Sensitivity found|S (measured)
        Level: Generated level|Tone, measured|Sound pressure level found
        Result: Outcome|Reading in calibration|Found value
        U: Uncertainty, expanded|Uncert.|+/-
        Lab: Performed by (lab)|Calibration house|Where calibrated
        Number: Certificate reference|Cal. report no.|Paper no.
        Hz: Frequency used|Calibrated at|Freq.
        Due: Valid until|Calibrate again by|Recall date
        Unit: Expressed in|Unit of result|Dim.
        Remark: Observations|Good to know|Memo
        OneMicrophone: Measuring microphone|Mike
        ManyMicrophone: Measuring microphones|Mikes
        OnePreamplifier: Microphone pre-amplifier|Pre-amp
        OneCalibrator: Field calibrator|Calibrator (sound)
        ManyCalibrator: Field calibrators
        InService: operational|serviceable|good
        Away: with a borrower|away for recalibration|lent
        OutOfService: inoperative|under repair|bust
        Lost: unaccounted for|not found at stock check|vanished
        Retired: decommissioned|discarded|sold
        Stations: Stations
        StationsTitle: What is fitted at the monitoring stations
        Station: Station
        Site: Site
        Fitted: Fitted on
        InCharge: Person in charge
        Phone: Extension
        ResultAndDay: Last result (date)
        Booking: Booking
        Booked: booked
        Free: free
        Item: Item
        Quantity: Qty
        Weight: Weight (kg)
        Tariff: Customs tariff no.
        Origin: Country of origin
        Insured: Insured value (EUR)
        Interval: Test interval (months)
        How: Type of calibration
        Internal: internal
        External: external
        Target: Target value
        Deviation: Deviation
        Tolerance: Permitted deviation
        Verdict: Conclusion
        Pass: pass
        Contents: Contents
        Case: Case
        Pieces: Pieces
        Slot: Slot
        Packed: Packed
        Sign: Initialled
        Kit: Our kit
        MakerAndType: Make and type
        Paid: Price paid (EUR)
        OnPolicy: On the policy
        Yes: yes
        No: no
        BookTitle: Property book as of
        Line: Line
        PartNo: Stock number
        Issue: Unit of issue
        Piece: each
        Condition: Condition code
        Bought: Year of purchase
        Obliged: Calibration required
        Book: Calibrations received
        Before: Value before
        Now: New value
        Moved: Change
        LentTo: Lent to
        OutSince: Out since
        BackBy: To be returned by
        LastSeen: Last seen
        Rule: Whoever borrows brings it back clean and dry.
        """;

    private const string German = """
        Kind: Gerätegattung|Sorte|Artikel
        Maker: Hergestellt von|Markenname|Fa.
        Model: Bauart|Typenschild|Variante
        Serial: Herstellnummer|Laufende Nr. des Herstellers|S.-Nr.
        Code: Gerätenummer intern|Hausnummer|Etikett
        Status: Einsatzbereitschaft|Brauchbar?|Wie geht's
        Place: Aufbewahrt in|Verbleib|Regal / Raum
        Day: Kalibriert (Datum)|Zuletzt kal. am|Kalibrierung vom
        Value: Druckempfindlichkeit|Ermittelte Empfindlichkeit|S (gemessen)
        Level: Erzeugter Pegel|Ton, gemessen|Ermittelter Schalldruckpegel
        Result: Befund|Ablesung bei Kalibrierung|Ermittelter Wert
        U: Unsicherheit, erweitert|Unsich.|+/-
        Lab: Durchgeführt von (Labor)|Kalibrierhaus|Wo kalibriert
        Number: Scheinnummer|Kal.-Protokoll Nr.|Papier-Nr.
        Hz: Verwendete Frequenz|Kalibriert bei|Freq.
        Due: Gültig bis|Wieder kalibrieren bis|Rückruf
        Unit: Angegeben in|Einheit des Ergebnisses|Dim.
        Remark: Hinweise|Gut zu wissen|Notizen
        OneMicrophone: Messmikrophon|Mikro
        ManyMicrophone: Messmikrophone|Mikros
        OnePreamplifier: Mikrofon-Vorstufe|Vorverst.
        OneCalibrator: Feldkalibrator|Kalibrator (Schall)
        ManyCalibrator: Feldkalibratoren
        InService: einsatzbereit|brauchbar|gut
        Away: beim Entleiher|zur Rekalibrierung weg|verborgt
        OutOfService: nicht einsatzbereit|in Reparatur|hin
        Lost: Verbleib ungeklärt|bei Inventur nicht vorgefunden|verschwunden
        Retired: außer Dienst gestellt|entsorgt|verkauft
        Stations: Messstellen
        StationsTitle: Bestückung der Messstellen
        Station: Messstelle
        Site: Ortslage
        Fitted: Eingebaut am
        InCharge: Zuständig
        Phone: Durchwahl
        ResultAndDay: Letztes Ergebnis (Datum)
        Booking: Vormerkung
        Booked: vorgemerkt
        Free: frei
        Item: Pos.
        Quantity: Anzahl
        Weight: Gewicht (kg)
        Tariff: Zolltarifnummer
        Origin: Ursprungsland
        Insured: Versicherungswert (EUR)
        Interval: Prüfintervall (Monate)
        How: Art der Kalibrierung
        Internal: intern
        External: extern
        Target: Sollwert
        Deviation: Abweichung
        Tolerance: Zulässige Abweichung
        Verdict: Beurteilung
        Pass: bestanden
        Contents: Inhalt
        Case: Koffer
        Pieces: Stück
        Slot: Fach
        Packed: Eingepackt
        Sign: Namenszeichen
        Kit: Unsere Sachen
        MakerAndType: Hersteller und Typ
        Paid: Kaufpreis (EUR)
        OnPolicy: In der Police
        Yes: ja
        No: nein
        BookTitle: Bestandsbuch zum
        Line: Lfd. Nr.
        PartNo: Sachnummer
        Issue: Mengeneinheit
        Piece: St
        Condition: Zustandscode
        Bought: Beschaffungsjahr
        Obliged: Kalibrierpflichtig
        Book: Eingegangene Kalibrierungen
        Before: Wert vorher
        Now: Neuer Wert
        Moved: Änderung
        LentTo: Verliehen an
        OutSince: Ausgegeben am
        BackBy: Rückgabe bis
        LastSeen: Zuletzt gesehen
        Rule: Wer ausleiht, bringt sauber und trocken zurück.
        """;

    private const string Dutch = """
        Kind: Klasse van uitrusting|Wat voor apparaat|Artikel
        Maker: Gemaakt door|Merknaam|Producent
        Model: Typebenaming|Versie|Variant
        Serial: Exemplaarnummer|Nummer van de maker|S.nr.
        Code: Inventariskenmerk|Onze ref.|Label
        Status: Inzetbaarheid|Bruikbaar?|Hoe is het ermee
        Place: Opgeslagen in|Waar gebleven|Plank / kamer
        Day: Gekalibreerd (datum)|Laatst gekal. op|Kalibratie van
        Value: Drukgevoeligheid|Gevonden gevoeligheid|S (gemeten)
        Level: Opgewekt niveau|Toon, gemeten|Gevonden geluidsdruk
        Result: Bevinding|Aflezing bij kalibratie|Gevonden waarde
        U: Onzekerheid, uitgebreid|Onzekerh.|+/-
        Lab: Uitgevoerd door (lab)|Kalibratiehuis|Waar gekalibreerd
        Number: Kenmerk van het certificaat|Nr. kal.rapport|Papiernr.
        Hz: Gebruikte frequentie|Gekalibreerd bij|Freq.
        Due: Geldig tot|Opnieuw kalibreren voor|Terugroepdatum
        Unit: Uitgedrukt in|Eenheid van de waarde|Dim.
        Remark: Bijzonderheden|Goed om te weten|Memo
        OneMicrophone: Microfoon voor metingen|Micro
        ManyMicrophone: Microfoons voor metingen|Micro's
        OnePreamplifier: Microfoon-voorversterker|Voorverst.
        OneCalibrator: Veldkalibrator|Kalibrator (geluid)
        ManyCalibrator: Veldkalibratoren
        InService: inzetbaar|bruikbaar|in orde
        Away: bij een lener|weg voor herkalibratie|geleend
        OutOfService: niet inzetbaar|in reparatie|kapot
        Lost: verblijfplaats onbekend|niet aangetroffen bij telling|verdwenen
        Retired: uit dienst genomen|weggedaan|verkocht
        Stations: Meetposten
        StationsTitle: Uitrusting van de meetposten
        Station: Meetpost
        Site: Plek
        Fitted: Ingebouwd op
        InCharge: Wie gaat erover
        Phone: Toestelnr.
        ResultAndDay: Laatste uitkomst (datum)
        Booking: Reservering
        Booked: gereserveerd
        Free: vrij
        Item: Nr.
        Quantity: Aantal
        Weight: Gewicht (kg)
        Tariff: Douanetariefnr.
        Origin: Land van herkomst
        Insured: Verzekerde waarde (EUR)
        Interval: Keuringstermijn (maanden)
        How: Soort kalibratie
        Internal: intern
        External: extern
        Target: Streefwaarde
        Deviation: Afwijking
        Tolerance: Toegestane afwijking
        Verdict: Conclusie
        Pass: goedgekeurd
        Contents: Inhoud
        Case: Koffer
        Pieces: Stuks
        Slot: Vak
        Packed: Ingepakt
        Sign: Paraaf
        Kit: Onze spullen
        MakerAndType: Merk en type
        Paid: Betaalde prijs (EUR)
        OnPolicy: Op de polis
        Yes: ja
        No: nee
        BookTitle: Goederenboek per
        Line: Regel
        PartNo: Artikelnummer
        Issue: Teleenheid
        Piece: st.
        Condition: Conditiecode
        Bought: Aankoopjaar
        Obliged: Kalibratieplichtig
        Book: Ontvangen kalibraties
        Before: Waarde ervoor
        Now: Nieuwe waarde
        Moved: Verandering
        LentTo: Uitgeleend aan
        OutSince: Weg sinds
        BackBy: Terug voor
        LastSeen: Laatst gezien
        Rule: Wie leent, brengt schoon en droog terug.
        """;
}
