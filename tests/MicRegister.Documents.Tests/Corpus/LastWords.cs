namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the last shapes alone, as houses of each language head their columns: no word is another's translation.</summary>
internal static class LastWords
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => LastWordsRomance.French,
        Tongue.Spanish => LastWordsRomance.Spanish,
        Tongue.Italian => LastWordsRomance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Device|Type of equipment|Instrument class|Device type
        Maker: Manufacturer name|Brand|Made by|Manuf.
        Model: Model name|Product|Type number|Model / version
        Serial: Serial No|Ser.No.|Manufacturer serial|S.N.
        Code: Equipment no.|Plant no.|Asset ID|Label no.
        Status: Availability|Current status|Usable|State of device
        Place: Kept in|Storage location|Room|Usual location
        Size: Mic size|Size (inch)|Diam.
        Day: Date calibrated|Latest calibration|Cal. performed|Last cal.
        Value: Sensitivity (cal.)|Mic sensitivity|Open-circuit sensitivity|Sens
        Result: Result of calibration|Value found|Cal. result|Measured
        U: Measurement uncertainty|Exp. uncertainty|Unc
        Lab: Calibration laboratory|Calibrated at|Cal. house|External lab
        Number: Certificate number|Cal. cert.|Report no.|Certif.
        Due: Next due|Calibrate by|Valid to|Next cal.
        Unit: Unit of value|Meas. unit|Units used
        Remark: Note|Observations|Comments / faults
        OneMicrophone: Measuring microphone|Microphone capsule|Measurement mic
        ManyMicrophone: Measuring microphones|Microphone capsules
        OnePreamplifier: Microphone preamplifier|Mic preamp
        OneCalibrator: Acoustic calibrator|Calibrator (sound)|Sound level calibrator
        OnePlate: Ground plate|Ground measurement board
        OneChannel: Recorder channel|Analyser channel
        InService: operational|in operation|on the shelf
        Away: sent for calibration|lent|at the calibration lab
        OutOfService: blocked|awaiting repair|defect
        Lost: lost|untraceable|not found at stocktake
        Retired: taken out of stock|retired from use|scrapped
        SchoolSheet: Equipment
        SchoolTitle: Acoustics lab, equipment and calibration record
        Device: Device
        Outside: External calibration
        Inside: Intermediate check (in house)
        On: Date
        Found: Deviation [dB]
        By: Checked by
        Site: Site
        Component: Component
        Monitors: NMT
        MonitorsTitle: Noise monitoring terminals, fitted equipment
        Monitor: NMT no.
        Sites: Parish Hall,Orchard Lane,Reservoir,Beacon Hill,Ferry Road,Lower Farm,Infant School
        ArticleNo: Product code
        Article: Product
        OutUntil: on hire until
        Deposit: Deposit EUR
        Safety: Electrical safety test
        InBox: Supplied with
        BoxParts: windscreen,pouch,small case
        ChannelTitle: Microphone channel plan, test bench
        Project: Project
        Channel: Ch.
        Point: Measuring point
        Points: Driver left,Driver right,Rear left,Rear right,Engine 1 m,Intake,Tailpipe,Gearbox,Underbody
        Range: Input range [V]
        Free: not used
        OfficeTitle: Environmental protection, noise team: instruments held
        No: No.
        Acquired: Year bought
        Verified: Legally verified until end of
        Keeper: Officer
        Extension: Ext.
        RoundsTitle: Calibration rounds of the measuring microphones
        Drift: Drift [dB]
        Lives: Drawer
        KitTitle: Equipment of the practice
        ShortName: Short name
        ShortMicrophone: MIC
        ShortPreamplifier: PRE
        ShortCalibrator: CAL
        DayAndLab: Calibrated (date, laboratory)
        Car: Kit bag
        Order: Job no.
        Received: Received
        Returned: Returned
        Customer: Customer
        Customers: Plant 2,Acoustics,Vehicle test
        Air: Environment (temp. / pressure / RH)
        Hours: Hours booked
        OutTitle: External calibrations by laboratory
        Cost: Cost EUR
        PurchaseOrder: PO no.
        About: Read first
        AboutTitle: Test equipment book, acoustics
        About1: Only the equipment manager makes changes.
        About2: Every change is noted on the sheet Changes.
        List: Stock list
        Changes: Changes
        ChangeHeads: Date,Who,What
        ChangeTexts: calibrations entered,locations checked,two devices taken out
        Notes: cable loose,cap missing,got wet in the rain
        """;

    private const string German = """
        Kind: Gerät (Art)|Gerätegruppe|Art des Messmittels|Gegenstand
        Maker: Firma|Herstellername|Marke|Hrst.
        Model: Modellbezeichnung|Bauart|Typ-Nr.|Gerätemodell
        Serial: Serial-Nr.|SN|Fabrik-Nr.|Hersteller-Seriennummer
        Code: Geräte-Nr.|Anlagen-Nr.|Inventarschild|Interne Nr.
        Status: Verfügbarkeit|Aktueller Status|Betriebszustand|Stat.
        Place: Aufbewahrt in|Raum|Abteilung / Raum|Lagerung
        Size: Mikrofongröße|Größe (Zoll)|Ø
        Day: Kalibriert|Datum letzte Kal.|Letzte Kalibr.|Kalibrierung vom
        Value: Empfindlichkeit (kal.)|Mikrofonempfindlichkeit|Leerlauf-Übertragungsfaktor|Empfindl.
        Result: Ergebnis der Kalibrierung|Ermittelter Wert|Kal.-Ergebnis|Gemessen
        U: Erweiterte Unsicherheit|Messunsich.|Unsich.
        Lab: Kalibrierlaboratorium|Kalibriert bei|Externes Labor|Kal.-Firma
        Number: Schein-Nr.|Nr. Kalibrierschein|Kal.-Zertifikat|Kalibrierprotokoll Nr.
        Due: Nächster Kal.-Termin|Kalibrieren bis|Gültig bis|Nächste Kal.
        Unit: Einheit des Werts|Messeinheit|Angabe in
        Remark: Notiz|Beobachtungen|Bemerkungen / Mängel
        OneMicrophone: Messmikrofon|Mikrofonkapsel|Mess-Mikro
        ManyMicrophone: Messmikrofone|Mikrofonkapseln
        OnePreamplifier: Mikrofonvorverstärker|Mikrofon-VV
        OneCalibrator: Akustischer Kalibrator|Schallkalibrator|Prüfschallquelle
        OnePlate: Bodenplatte|Messplatte für den Boden
        OneChannel: Rekorderkanal|Analysatorkanal
        InService: einsatzbereit|in Benutzung|im Schrank
        Away: zur Kalibrierung versandt|verliehen|beim Kalibrierdienst
        OutOfService: gesperrt|wartet auf Reparatur|schadhaft
        Lost: verloren|unauffindbar|bei Inventur nicht gefunden
        Retired: ausgebucht|außer Dienst gestellt|verschrottet
        SchoolSheet: Geräte
        SchoolTitle: Akustiklabor, Geräte und Kalibriernachweis
        Device: Gerät
        Outside: Externe Kalibrierung
        Inside: Zwischenprüfung (intern)
        On: Datum
        Found: Abw. [dB]
        By: Prüfer
        Site: Standort
        Component: Komponente
        Monitors: Messstellen
        MonitorsTitle: Fluglärmmessanlage, Bestückung der Messstellen
        Monitor: MSt.
        Sites: Gemeindehaus,Obstweg,Wasserwerk,Galgenberg,Fährstraße,Unterhof,Kindergarten
        ArticleNo: Artikelnr.
        Article: Artikel
        OutUntil: vermietet bis
        Deposit: Kaution EUR
        Safety: Elektr. Geräteprüfung
        InBox: Lieferumfang
        BoxParts: Windschirm,Etui,kleiner Koffer
        ChannelTitle: Kanalbelegung Mikrofone, Prüfstand
        Project: Projekt
        Channel: Kanal
        Point: Messpunkt
        Points: Fahrer links,Fahrer rechts,Fond links,Fond rechts,Motor 1 m,Ansaugung,Mündung,Getriebe,Unterboden
        Range: Eingangsbereich [V]
        Free: frei
        OfficeTitle: Sachgebiet Immissionsschutz: Verzeichnis der Schallmessgeräte
        No: Nr.
        Acquired: Beschafft
        Verified: Geeicht bis Ende
        Keeper: Sachbearbeiter
        Extension: Durchwahl
        RoundsTitle: Kalibrierrunden der Messmikrofone
        Drift: Drift [dB]
        Lives: Schublade
        KitTitle: Messgeräte des Büros
        ShortName: Kurzname
        ShortMicrophone: MIK
        ShortPreamplifier: VV
        ShortCalibrator: KAL
        DayAndLab: Kalibriert (Datum, Labor)
        Car: Messkoffer
        Order: Auftrag
        Received: Eingang
        Returned: Ausgang
        Customer: Auftraggeber
        Customers: Werk 2,Akustik,Fahrversuch
        Air: Umgebung (Temp. / Druck / Feuchte)
        Hours: Aufwand [h]
        OutTitle: Fremdkalibrierungen nach Labor
        Cost: Kosten EUR
        PurchaseOrder: Bestellnr.
        About: Hinweise
        AboutTitle: Messmittelbuch Akustik
        About1: Änderungen nur durch den Messmittelbeauftragten.
        About2: Jede Änderung wird im Blatt Änderungen vermerkt.
        List: Bestand
        Changes: Änderungen
        ChangeHeads: Datum,Wer,Was
        ChangeTexts: Kalibrierungen eingetragen,Standorte geprüft,zwei Geräte ausgetragen
        Notes: Kabel wackelt,Kappe fehlt,im Regen nass geworden
        """;

    private const string Dutch = """
        Kind: Toestel|Soort meetmiddel|Instrumentgroep|Wat
        Maker: Naam fabrikant|Merknaam|Gemaakt door|Fabr.
        Model: Modelnaam|Typenr.|Product|Type / versie
        Serial: Serie nummer|SN|Fabrieksnummer|Serienr. fabrikant
        Code: Apparaatnr.|Objectnr.|Eigen nummer|Stickernr.
        Status: Beschikbaarheid|Actuele status|Inzetbaar|Staat
        Place: Bewaard in|Ruimte|Opslaglocatie|Kast / lokaal
        Size: Maat microfoon|Maat (inch)|Ø
        Day: Gekalibreerd|Datum laatste kal.|Kalibratie d.d.|Laatst gekalibreerd
        Value: Gevoeligheid (kal.)|Gevoeligheid microfoon|Nullastgevoeligheid|Gevoeligh.
        Result: Resultaat kalibratie|Gevonden waarde|Kal.resultaat|Gemeten
        U: Meetonzekerheid|Uitgebreide onzekerheid|Onzekerh.
        Lab: Kalibratielab|Gekalibreerd bij|Extern lab|Kalibratiebedrijf
        Number: Nummer certificaat|Kal.certificaat|Rapportnr.|Certif.
        Due: Volgende kal.|Kalibreren voor|Geldig tot|Eerstvolgende kalibratie
        Unit: Eenheid waarde|In eenheid|Meeteenh.
        Remark: Notitie|Bijzonderheden|Opmerkingen / gebreken
        OneMicrophone: Meetmicrofoon|Microfoonkapsel|Meetmic
        ManyMicrophone: Meetmicrofoons|Microfoonkapsels
        OnePreamplifier: Microfoonvoorversterker|Voorversterker mic
        OneCalibrator: Akoestische kalibrator|Geluidkalibrator|Geluidsijkbron
        OnePlate: Grondplaat|Meetplaat voor de grond
        OneChannel: Recorderkanaal|Analyserkanaal
        InService: inzetbaar|wordt gebruikt|in de kast
        Away: opgestuurd voor kalibratie|uitgeleend|bij het kalibratielab
        OutOfService: geblokkeerd|wacht op reparatie|stuk
        Lost: verloren|onvindbaar|niet gevonden bij inventarisatie
        Retired: uitgeboekt|uit dienst genomen|gesloopt
        SchoolSheet: Apparatuur
        SchoolTitle: Akoestieklab, apparatuur en kalibratiestatus
        Device: Apparaat
        Outside: Externe kalibratie
        Inside: Tussentijdse controle (intern)
        On: Datum
        Found: Afwijking [dB]
        By: Paraaf
        Site: Locatie
        Component: Onderdeel
        Monitors: Meetposten
        MonitorsTitle: Vliegtuiggeluid, apparatuur per meetpost
        Monitor: Post
        Sites: Dorpshuis,Boomgaard,Waterwerk,Zandheuvel,Veerweg,Lage Hoeve,Basisschool
        ArticleNo: Artikelcode
        Article: Artikel
        OutUntil: verhuurd tot
        Deposit: Borg EUR
        Safety: Elektrische keuring
        InBox: Inclusief
        BoxParts: windkap,etui,kleine koffer
        ChannelTitle: Kanaalindeling microfoons, proefstand
        Project: Project
        Channel: Kanaal
        Point: Meetpositie
        Points: Bestuurder links,Bestuurder rechts,Achter links,Achter rechts,Motor 1 m,Inlaat,Uitlaat,Versnellingsbak,Onderzijde
        Range: Ingangsbereik [V]
        Free: niet in gebruik
        OfficeTitle: Team Geluid: overzicht meetapparatuur
        No: Nr.
        Acquired: Aanschafjaar
        Verified: Geijkt t/m
        Keeper: Medewerker
        Extension: Toestelnr.
        RoundsTitle: Kalibratierondes van de meetmicrofoons
        Drift: Verloop [dB]
        Lives: Lade
        KitTitle: Meetapparatuur van het bureau
        ShortName: Roepnaam
        ShortMicrophone: MIC
        ShortPreamplifier: VV
        ShortCalibrator: KAL
        DayAndLab: Gekalibreerd (datum, lab)
        Car: Meetkoffer
        Order: Opdracht
        Received: Binnengekomen
        Returned: Retour
        Customer: Opdrachtgever
        Customers: Fabriek 2,Akoestiek,Testbaan
        Air: Omgeving (temp. / druk / RV)
        Hours: Uren
        OutTitle: Externe kalibraties per laboratorium
        Cost: Kosten EUR
        PurchaseOrder: Inkoopnr.
        About: Lees dit
        AboutTitle: Meetmiddelenboek akoestiek
        About1: Alleen de beheerder brengt wijzigingen aan.
        About2: Elke wijziging komt op het blad Wijzigingen.
        List: Bestand
        Changes: Wijzigingen
        ChangeHeads: Datum,Wie,Wat
        ChangeTexts: kalibraties ingevoerd,locaties nagekeken,twee apparaten afgevoerd
        Notes: kabel los,kapje weg,nat geworden in de regen
        """;
}
