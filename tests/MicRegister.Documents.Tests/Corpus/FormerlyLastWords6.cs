namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Words of the sixth shapes that once were the last: no word is another's translation.</summary>
internal static class FormerlyLastWords6
{
    public static string Of(Tongue tongue) => tongue switch
    {
        Tongue.English => English,
        Tongue.German => German,
        Tongue.French => FormerlyLastWords6Romance.French,
        Tongue.Spanish => FormerlyLastWords6Romance.Spanish,
        Tongue.Italian => FormerlyLastWords6Romance.Italian,
        _ => Dutch,
    };

    private const string English = """
        Kind: Description|Equipment|Instrument type|Item
        Maker: Make|Manufacturer|Mfr|Maker name
        Model: Type / model|Model number|Type|Manufacturer's model
        Serial: Serial number (maker)|Mfr serial no.|S/No.|Serial
        Code: Lab ID|Equipment ID|Register no.|ID
        Status: Equipment status|In use?|Fit for use|Current state
        Place: Normal location|Room / cabinet|Stored in|Site
        Size: Capsule size|Mic diameter|Nominal size
        Day: Last calibrated on|Date of cal.|Cal'd on|Calibrated
        Value: Calibrated sensitivity|Mic sens.|Sens. cal.|Sensitivity at calibration
        Level: Calibrated level|Level at coupler|SPL calibrated
        Result: Calibration result|Calibrated value|Cal. value|As measured
        U: Expanded unc.|Uncertainty of cal.|Unc.|U (exp.)
        Lab: Calibration supplier|Cal. by|Calibrating lab|Cal. agency
        Number: Calibration cert. no.|Certificate / report|Cert no.|Cal. certificate ref.
        Hz: Cal. frequency|Frequency of calibration|Test freq.
        Pressure: Barometric pressure|Baro.|Atmospheric pressure
        Temperature: Air temp.|Ambient temperature|T
        Humidity: R.H.|Rel. humidity|Ambient humidity
        Due: Next cal. date|Recalibration due|Due|Cal. expiry
        Unit: Unit of measure|UoM|Units of result
        Remark: Comments|Notes and condition|Remarks / history
        OneMicrophone: Condenser microphone|Mic|Free-field microphone
        ManyMicrophone: Condenser microphones|Mics
        OnePreamplifier: Mic preamplifier|Preamp unit
        ManyPreamplifier: Preamps
        OneCalibrator: Sound level calibrator|Mic calibrator|Acoustical calibrator
        ManyCalibrator: Sound level calibrators|Calibrators
        OnePistonphone: Pistonphone|Piston phone
        OnePlate: Ground board|Ground plane plate
        OneChannel: Recorder input channel|DAQ channel
        InService: in service|available|ready
        Away: on hire|out for cal|with external lab
        OutOfService: out of service|in workshop|faulty
        Lost: missing|not located|cannot be found
        Retired: decommissioned|written off|disposed
        FormTitle: List of measuring and test equipment
        Form: Form
        Revision: Revision
        Approved: Approved
        Interval: Cal. interval [months]
        NotDue: n/a
        NoteGrid: grid dented
        NoteBox: box missing
        With: Currently with
        SensLevel: Sensitivity level
        Plug: Connector
        Pins: 7-pin
        Others: Other gear
        Loans: Loans
        LoanHeads: What,Borrower,Taken,Returned
        Entry: Entry
        Object: Item calibrated
        Reviewed: Reviewed by
        Filed: Filed in
        Folder: Folder
        SensLog: Sensitivity log, measurement microphones
        Time: Time
        Reference: Checked with
        Change: Change since last
        Operator: Operator
        Fields: ID,InvNo,InstrumentType,Manufacturer,TypeDesignation,SerialNo,Room,State
        MoreFields: CalRequired,LastCal,NextCal,CertNo,CalValue,CalUnit,Notes,ModifiedAt
        Obliged: Cal. required
        Changed: Modified at
        Stock: Hire stock
        ItemNo: Item no.
        Pieces: Units
        Rate: Day rate EUR
        Round: Yearly calibration round
        YearBefore: last year
        By: by
        ShortModel: Type
        ShortSerial: SN
        ShortDay: Date
        Planner: Calibration planner
        Section: Dept.
        Ordered: PO raised
        Yes: yes
        Legend: x = month in which calibration falls due
        Annex: Annex
        AnnexTitle: measuring equipment subject to calibration
        AsOn: Status of
        Keeper: Custodian
        Standards: Reference and working standards
        Nominal: Nominal value
        Traceable: Traceability (cal. lab)
        Use: Used as
        UseReference: reference
        UseWorking: working standard
        """;

    private const string German = """
        Kind: Gerätebezeichnung|Messmittelbezeichnung|Prüfmittel|Benennung
        Maker: Hersteller|Hersteller / Marke|Herst.|Fabrikat
        Model: Typ / Modell|Typenbez.|Gerätetyp|Ausführung
        Serial: Serien-Nr. (Hersteller)|Geräte-Seriennr.|Ser.-Nummer|Fabrikationsnummer
        Code: Prüfmittel-Nr.|Messmittel-Nr.|PM-Nr.|Ident
        Status: Gerätestatus|Verwendbar|Einsatzstatus|Prüfmittelstatus
        Place: Lagerplatz|Raum / Schrank|Aufbewahrung|Einsatzort
        Size: Kapselgröße|Nenngröße|Mikrofondurchmesser
        Day: Letzte Kal. am|Kalibriertermin (letzter)|Kal.-Dat.|Datum Kalibrierung
        Value: Kalibrierte Empfindlichkeit|Mikrofonempf.|Empfindlichkeit lt. Kalibrierschein|Ü-Faktor
        Level: Kalibrierter Pegel|Pegel am Kuppler|Pegel lt. Kalibrierschein
        Result: Kalibrierergebnis|Istwert|Kal.-Wert|Wert lt. Schein
        U: Erw. Messunsicherheit|Messunsicherheit U|MU|Erw. Unsicherheit
        Lab: Kalibrierdienstleister|Kal.-Stelle|Kalibriert durch|Kal.-Labor
        Number: Kalibrierschein Nr.|Zertifikat / Schein|Kalibr.-Schein|Nr. des Scheins
        Hz: Kalibrierfrequenz|Frequenz der Kalibrierung|Prüffrequenz
        Pressure: Umgebungsdruck|Barometerstand|stat. Luftdruck
        Temperature: Lufttemperatur|Umgebungstemp.|T
        Humidity: rel. Luftfeuchte|Umgebungsfeuchte|r. F.
        Due: Nächste Kal. am|Rekalibrierung fällig|Fälligkeit|Kal. gültig bis
        Unit: Maßeinheit|Einh.|Einheit Ergebnis
        Remark: Kommentar|Bemerkungen / Zustand|Bem.
        OneMicrophone: Kondensatormikrofon|Mikro|Freifeldmikrofon
        ManyMicrophone: Kondensatormikrofone|Mikros
        OnePreamplifier: Mikrofon-Vorverstärker|Vorverstärkerstufe
        ManyPreamplifier: Mikrofon-Vorverstärker
        OneCalibrator: Schallpegelkalibrator|Mikrofonkalibrator|Kalibrator
        ManyCalibrator: Schallpegelkalibratoren|Kalibratoren
        OnePistonphone: Pistonphon|Pistonfon
        OnePlate: Bodenmessplatte|Schallharte Platte
        OneChannel: Aufzeichnungskanal|Frontend-Kanal
        InService: im Einsatz|verfügbar|freigegeben
        Away: vermietet|zur Kalibrierung|beim Kalibrierlabor
        OutOfService: außer Betrieb|in der Werkstatt|nicht verwendbar
        Lost: fehlt|nicht auffindbar|abhandengekommen
        Retired: ausgeschieden|abgeschrieben und entsorgt|stillgelegt
        FormTitle: Liste der Mess- und Prüfmittel
        Form: Formblatt
        Revision: Revision
        Approved: Freigabe
        Interval: Kal.-Intervall [Monate]
        NotDue: entfällt
        NoteGrid: Gitter verbeult
        NoteBox: Etui fehlt
        With: Zur Zeit bei
        SensLevel: Übertragungsmaß
        Plug: Stecker
        Pins: 7-polig
        Others: Sonstiges
        Loans: Ausleihe
        LoanHeads: Was,Wer,Geholt,Zurück
        Entry: Lfd.
        Object: Kalibriergegenstand
        Reviewed: Geprüft durch
        Filed: Ablage
        Folder: Ordner
        SensLog: Empfindlichkeitsprotokoll der Messmikrofone
        Time: Uhrzeit
        Reference: Geprüft mit
        Change: Änderung zur letzten
        Operator: Bearbeiter
        Fields: ID,InvNr,Geraeteart,Hersteller,TypBez,SerienNr,Raum,Zustand
        MoreFields: KalPflicht,LetzteKal,NaechsteKal,ScheinNr,KalWert,KalEinheit,Bemerkung,GeaendertAm
        Obliged: Kal.-pflichtig
        Changed: Geändert am
        Stock: Mietbestand
        ItemNo: Artikel-Nr.
        Pieces: Bestand
        Rate: Tagesmiete EUR
        Round: Jahreskalibrierung
        YearBefore: Vorjahr
        By: wer
        ShortModel: Typ
        ShortSerial: SN
        ShortDay: Datum
        Planner: Kalibrierplanung
        Section: Abt.
        Ordered: Beauftragt
        Yes: ja
        Legend: x = Monat, in dem die Kalibrierung fällig wird
        Annex: Anlage
        AnnexTitle: kalibrierpflichtige Messmittel
        AsOn: Stand
        Keeper: Gerätewart
        Standards: Bezugs- und Gebrauchsnormale
        Nominal: Nennwert
        Traceable: Rückführung über (Labor)
        Use: Verwendung
        UseReference: Bezugsnormal
        UseWorking: Gebrauchsnormal
        """;

    private const string Dutch = """
        Kind: Omschrijving|Meetmiddel|Soort instrument|Apparatuur
        Maker: Fabrikant|Merk / fabrikant|Fabr.|Producent
        Model: Type / model|Typeaanduiding|Modelnr.|Uitvoering
        Serial: Serienummer fabrikant|Serie-nr.|Ser. nr.|Fabrieksnr.
        Code: Meetmiddelnummer|Instrument-ID|Registratienr.|Labnr.
        Status: Status apparaat|Te gebruiken?|Gebruiksstatus|Huidige staat
        Place: Vaste plaats|Ruimte / kast|Ligt in|Standplaats
        Size: Kapselmaat|Nominale maat|Diam.
        Day: Datum laatste kalibratie|Gekalibreerd d.d.|Kal.datum|Laatste kal.
        Value: Gekalibreerde gevoeligheid|Gevoeligheid volgens certificaat|Gev.|Microfoongevoeligheid
        Level: Gekalibreerd niveau|Niveau in koppelstuk|Niveau volgens certificaat
        Result: Kalibratieresultaat|Gemeten waarde|Kal.waarde|Waarde op certificaat
        U: Uitgebr. meetonzekerheid|Meetonzekerheid U|Onz.|Kal.onzekerheid
        Lab: Kalibratie-instantie|Gekalibreerd door|Kal.lab|Uitvoerend lab
        Number: Kalibratiecertificaat nr.|Cert.nr.|Certificaat / rapport|Nr. certificaat
        Hz: Kalibratiefrequentie|Frequentie bij kalibratie|Meetfreq.
        Pressure: Barometerdruk|Omgevingsdruk|Barom.
        Temperature: Luchttemperatuur|Omgevingstemp.|T
        Humidity: Relatieve luchtvochtigheid|RV|Omgevingsvochtigheid
        Due: Volgende kalibratie op|Herkalibratie voor|Kal. vervalt|Kalibratie uiterlijk
        Unit: Meeteenheid|Eenh.|Eenheid resultaat
        Remark: Commentaar|Opm.|Toelichting / staat
        OneMicrophone: Condensatormicrofoon|Mic|Vrijeveldmicrofoon
        ManyMicrophone: Condensatormicrofoons|Mics
        OnePreamplifier: Microfoon-voorversterker|Voorversterkertrap
        ManyPreamplifier: Microfoon-voorversterkers
        OneCalibrator: Geluidsniveaukalibrator|Microfoonkalibrator|IJkbron
        ManyCalibrator: Geluidsniveaukalibratoren|Kalibrators
        OnePistonphone: Pistonfoon|Pistonphone
        OnePlate: Grondmeetplaat|Plaat (grond)
        OneChannel: Opnamekanaal|Kanaal recorder
        InService: in dienst|beschikbaar|vrijgegeven
        Away: verhuurd|weg voor kalibratie|bij kalibratielab
        OutOfService: buiten dienst|in de werkplaats|storing
        Lost: ontbreekt|niet te vinden|kwijt
        Retired: afgestoten|uit bestand gehaald|afgedankt
        FormTitle: Lijst van meet- en beproevingsmiddelen
        Form: Formulier
        Revision: Revisie
        Approved: Goedgekeurd
        Interval: Kal.interval [maanden]
        NotDue: n.v.t.
        NoteGrid: rooster gedeukt
        NoteBox: doosje ontbreekt
        With: Nu bij
        SensLevel: Gevoeligheidsniveau
        Plug: Stekker
        Pins: 7-polig
        Others: Overig
        Loans: Uitleen
        LoanHeads: Wat,Wie,Mee op,Terug op
        Entry: Volgnr.
        Object: Gekalibreerd object
        Reviewed: Beoordeeld door
        Filed: Opgeborgen in
        Folder: Map
        SensLog: Logboek gevoeligheid meetmicrofoons
        Time: Tijd
        Reference: Gecontroleerd met
        Change: Verschil met vorige
        Operator: Uitvoerder
        Fields: ID,InvNr,SoortApparaat,Fabrikant,TypeAanduiding,SerieNr,Ruimte,Toestand
        MoreFields: KalPlicht,LaatsteKal,VolgendeKal,CertNr,KalWaarde,KalEenheid,Opmerking,GewijzigdOp
        Obliged: Kal.plichtig
        Changed: Gewijzigd op
        Stock: Verhuurvoorraad
        ItemNo: Artikelnr.
        Pieces: Aantal
        Rate: Dagprijs EUR
        Round: Jaarlijkse kalibratieronde
        YearBefore: vorig jaar
        By: door
        ShortModel: Type
        ShortSerial: SN
        ShortDay: Datum
        Planner: Kalibratieplanning
        Section: Afd.
        Ordered: Besteld
        Yes: ja
        Legend: x = maand waarin de kalibratie vervalt
        Annex: Bijlage
        AnnexTitle: kalibratieplichtige meetmiddelen
        AsOn: Stand per
        Keeper: Beheerder
        Standards: Referentie- en werkstandaarden
        Nominal: Nominale waarde
        Traceable: Herleidbaarheid (lab)
        Use: Gebruikt als
        UseReference: referentie
        UseWorking: werkstandaard
        """;
}
