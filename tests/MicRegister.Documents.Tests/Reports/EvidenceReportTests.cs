using MicRegister.Documents.Drawings;
using MicRegister.Documents.Reports;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Reports;

/// <summary>An invented campaign of two stations, two hours ahead of UTC: S1 was measured with, S2 was left empty.</summary>
public sealed class EvidenceReportTests
{
    private const string C = "HEATH-26";

    private static readonly Fact Wrong = At("2026-06-02T05:00:00.000Z", Placement("S2", "M2"), "campaign:" + C, "device:M2");
    private static readonly (string Name, string Value)[] From = [("Log", "invented"), ("Sequence", "17")];

    [Fact]
    public void Each_station_stands_with_place_mount_height_and_chain()
    {
        var text = Text(Made());

        Assert.Contains("S1|53.000000|1.000000|flush in a ground plate|0.0 (usual for the mount)", text, StringComparison.Ordinal);
        Assert.Contains("S2|53.001000|1.000000|on a stand|1.2 (usual for the mount)", text, StringComparison.Ordinal);
        Assert.Contains("S1|2026-06-02 08:00:00|2026-06-02 06:00:00|2026-06-02 20:00:00|2026-06-02 18:00:00|Microphone Model 101; Recorder channel Model 301.", text, StringComparison.Ordinal);
        Assert.Contains("S2|||||nothing was placed there", text, StringComparison.Ordinal);
        Assert.Contains(Made().OfType<ReportFigure>(), f => f.Drawing.Title.Contains("2 stations from above", StringComparison.Ordinal));
    }

    [Fact]
    public void Scope_and_profile_are_stated_with_what_nobody_checked()
    {
        var text = Text(Made());

        Assert.Contains("from 2026-06-01 to 2026-06-10", text, StringComparison.Ordinal);
        Assert.Contains("a propeller aeroplane", text, StringComparison.Ordinal);
        Assert.Contains("20 Hz to 10000 Hz", text, StringComparison.Ordinal);
        Assert.Contains("unchecked against the current text", text, StringComparison.Ordinal);
        Assert.Contains("Figures of built-in profiles are unchecked; follow the authority's current text.", text, StringComparison.Ordinal);
        Assert.Contains("compared the profile with the current text of its source: compared with edition of 2026", Text(Made(Of(new ProfileConfirmed("edition of 2026", null), "2026-05-03", "profile:" + BuiltInProfiles.Usual))), StringComparison.Ordinal);
    }

    [Fact]
    public void Certificates_in_force_stand_down_to_what_they_rest_on()
    {
        var text = Text(Made());

        Assert.Contains(
            "Microphone Model|101|sensitivity at 250 Hz|2026-03-01|House|−38.16 dB re 1 V/Pa|0.06 dB|2|2028-03-01|not stated",
            text, StringComparison.Ordinal);
        Assert.Contains(
            "Sound calibrator Model|501|level at 250 Hz|2026-01-05|House|94.00 dB|0.10 dB|2|2027-01-05|Microphone Model 901",
            text, StringComparison.Ordinal);
        Assert.Contains("Microphone Model|901|sensitivity at 250 Hz|2025-11-01|House|−38.30 dB re 1 V/Pa", text, StringComparison.Ordinal);
        Assert.DoesNotContain("2024-03-01", text, StringComparison.Ordinal); // an older one that was in force no more
    }

    [Fact]
    public void Checks_stand_with_level_deviation_uncertainty_and_verdict_and_a_chart()
    {
        var text = Text(Made());

        Assert.Contains("S1|2026-06-02|08:30:00|before|Sound calibrator Model 501|−38.16 dB re 1 V/Pa|0.00|0.12 (2.00)||accept", text,
            StringComparison.Ordinal);
        Assert.Contains("S1|2026-06-02|18:00:00|after|Sound calibrator Model 501|−38.26 dB re 1 V/Pa|−0.10|0.12 (2.00)|−0.100|accept", text,
            StringComparison.Ordinal);
        Assert.Contains(Made().OfType<ReportFigure>(), f => f.Caption.StartsWith("Checks of Microphone Model 101", StringComparison.Ordinal));
    }

    [Fact]
    public void What_was_not_read_of_the_air_stands_with_the_checks_and_with_the_sensitivities_that_are_applied()
    {
        var text = Text(Made(Of(new DeviceDescribed(new SortedDictionary<string, FieldValue>(StringComparer.Ordinal) { ["temperature-db-per-k"] = FieldValue.Of(-0.02) }, []), "2026-05-02", "device:M1")));

        Assert.Contains("Checks at S1: No temperature was read, which the microphone follows: ", text, StringComparison.Ordinal);
        Assert.Contains("How temperature changed from the checks to the event is not known in full: ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("which the microphone follows", Text(Made()), StringComparison.Ordinal);
    }

    [Fact]
    public void Charts_beyond_twelve_are_counted_and_left_out()
    {
        var more = Enumerable.Range(20, 13).SelectMany(i => new[] { Entered("M" + i, "1" + i, "microphone"), Checked("S1", "2026-06-03T06:30:00.000Z", CheckMoment.Before, 0, "M" + i) });
        var report = Made([.. more]);

        Assert.Equal(12, report.OfType<ReportFigure>().Count(f => f.Caption.StartsWith("Checks of", StringComparison.Ordinal)));
        Assert.Contains("those of 2 further microphones are left out", Text(report), StringComparison.Ordinal);
    }

    [Fact]
    public void Events_stand_with_their_stations_and_reasons()
    {
        var text = Text(Made());

        Assert.Contains("Flight 1 (invented aeroplane)|doubtful|2026-06-02 12:00:00|2026-06-02 10:00:00|2026-06-02 10:01:00|S1|none|none|S2|S2: Nothing stood there.|Its files hold all of it, as far as was said", text, StringComparison.Ordinal);
        Assert.Contains("never for a tone", text, StringComparison.Ordinal);
        Assert.Contains(new string('b', 64), text, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_uncertainties_come_from_stands_by_source()
    {
        var text = Text(Made());

        Assert.Contains("Where the uncertainties come from", text, StringComparison.Ordinal);
        Assert.Contains(
            "one insertion, assumed|2 sources, each of one station alone|0.0300 dB|0.500|0.0150|0.0150|S1", text, StringComparison.Ordinal);
        Assert.Contains(
            "Greatest U in V/Pa, dB|Greatest U in FS/Pa, dB|of the sensitivity in V/Pa, dB|of mount and direction, dB", text,
            StringComparison.Ordinal);
        // A voltage told it: the channel's certificate, u = 0.04 / 2, counts in FS/Pa alone.
        Assert.Contains(
            "channel's gain|1 source, each of one station alone|0.0200 dB|0.000|0.0000|0.0200|S1", text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_annulled_stands_with_its_reason()
    {
        var text = Text(Made(Wrong, FactText.WriteDerived(new(Wrong.Occurred, "P1", "desk", 8), new FactAnnulled(Wrong.Id.ToString(), "it was the other station"), Wrong.Subjects)));

        Assert.Contains("chain placed|2026-06-02T05:00:00.000Z|P1|annulled by P1: it was the other station", text, StringComparison.Ordinal);
        Assert.Contains("No fact of this campaign was annulled", Text(Made()), StringComparison.Ordinal);
    }

    [Fact]
    public void A_doubt_that_touches_an_event_stands_with_its_interval()
    {
        var found = Of(Issued(-38.80, 0.06, "sensitivity", "dB re 1 V/Pa"), "2026-07-01", "device:M1");
        var text = Text(Made(found));

        Assert.Contains("No doubt touches an event", Text(Made()), StringComparison.Ordinal);
        // 38.80 - 38.16 = 0.64 dB against 0.5 dB allowed; the check after the event rescues it.
        Assert.Contains("|0.640 dB|Flight 1|S1|none|not needed", text, StringComparison.Ordinal);
    }

    [Fact]
    public void It_ends_with_where_it_comes_from_and_fits_on_pages()
    {
        var report = Made();
        var text = Text(report);

        Assert.Contains("Log|invented", text, StringComparison.Ordinal);
        Assert.Contains("The same report can be made again from that log at that sequence", text, StringComparison.Ordinal);
        Assert.Equal(
            Enumerable.Range(1, 11).Select(i => $"{i}"), report.OfType<ReportHeading>().Where(h => h.Level == 1).Select(h => h.Text.Split(' ')[0]));
        var pages = ReportPages.Of("Evidence of Heath", "Invented", report);
        ReportPagesTests.AssertWithinMargins(pages);
        Assert.Contains(ReportPagesTests.Bare("Flight 1 (invented aeroplane)"), ReportPagesTests.Squeezed(pages), StringComparison.Ordinal);
        using var content = new MemoryStream();
        PdfPainter.Paint(pages, content);
        Assert.True(content.Length > 1000);
    }

    [Fact]
    public void A_campaign_that_nobody_planned_has_no_report() => Assert.Null(EvidenceReport.Of(FactList.RegisterOf(Facts()), "NOWHERE", new(2026, 6, 20), From));

    private static IReadOnlyList<ReportBlock> Made(params Fact[] more) => EvidenceReport.Of(FactList.RegisterOf([.. Facts(), .. more]), C, new(2026, 6, 20), From)!;

    // Cells of a row with a stroke between them, blocks and rows on lines of their own.
    private static string Text(IReadOnlyList<ReportBlock> blocks) => string.Join('\n', blocks.SelectMany(b => b switch
    {
        ReportHeading h => [h.Text],
        ReportText t => [t.Text],
        ReportTable t => [t.Caption, .. t.Rows.Prepend(t.Head).Select(r => string.Join('|', r))],
        ReportFigure f => (string[])[f.Caption],
        _ => [],
    }));

    private static IEnumerable<Fact> Facts() =>
    [
        Of(new CampaignPlanned("Heath", new(2026, 6, 1), new(2026, 6, 10), "Zone/Heath", [new("2020-01-01T00:00:00.000Z", 120)], "Heath", 20, SourceClass.Propeller, 20, 10_000, null, null, BuiltInProfiles.Usual, 0, null), "2026-05-01", "campaign:" + C),
        Of(new StationPlanned("S1", 53, 1, Mount.FlushPlate, null), "2026-05-01", "campaign:" + C),
        Of(new StationPlanned("S2", 53.001, 1, Mount.GroundStand, null), "2026-05-01", "campaign:" + C),
        Entered("M1", "101", "microphone"), Entered("M2", "102", "microphone"), Entered("R1", "301", "recorder-channel"), Entered("K1", "501", "sound-calibrator"), Entered("REF", "901", "microphone"),
        Of(Issued(-38.16, 0.06, "sensitivity", "dB re 1 V/Pa"), "2024-03-01", "device:M1"),
        Of(Issued(-38.16, 0.06, "sensitivity", "dB re 1 V/Pa"), "2026-03-01", "device:M1"),
        Of(Issued(0.003, 0.04, "gain", "dB"), "2026-02-01", "device:R1"),
        Of(Issued(-38.30, 0.04, "sensitivity", "dB re 1 V/Pa"), "2025-11-01", "device:REF"),
        CertificateOfK1,
        At("2026-06-02T06:00:00.000Z", Placement("S1", "M1", "R1"), "campaign:" + C, "device:M1", "device:R1"),
        Checked("S1", "2026-06-02T06:30:00.000Z", CheckMoment.Before, 0, "M1", "R1"),
        At("2026-06-02T10:02:00.000Z", new EventHappened("Flight 1", "2026-06-02T10:00:00.000Z", "2026-06-02T10:01:00.000Z", EventKind.FlyOver, "invented aeroplane", [new("a.wav", 1000, new('b', 64), "REC", null, 90, [1])], null), "event:E1", "campaign:" + C),
        Checked("S1", "2026-06-02T16:00:00.000Z", CheckMoment.After, -0.1, "M1", "R1"),
        At("2026-06-02T18:00:00.000Z", new ChainTakenIn("S1", ["M1", "R1"], [], null), "campaign:" + C, "device:M1", "device:R1"),
    ];

    // Microphones of a type that suits every mount of the plan, calibrators of a class that its profile allows.
    private static Fact Entered(string id, string serial, string kind)
    {
        var details = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal);
        if (kind == "microphone") details["response-type"] = FieldValue.Of("pressure");
        if (kind == "sound-calibrator") details["calibrator-class"] = FieldValue.Of("1");
        return Of(new DeviceRegistered(kind, "Maker", "Model", serial, details), "2020-01-01", "device:" + id);
    }

    private static Fact CertificateOfK1 => Of(Issued(94, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-01-05", "device:K1");

    private static CertificateIssued Issued(double value, double expanded, string quantity, string unit) =>
        new(quantity, null, "House", null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, value, unit, expanded, "dB", 2)], null, null, null, null, null, null, null);

    private static ChainPlaced Placement(string station, params string[] devices) => new(station, devices, [], null, null, null, null, null, [], null);

    private static Fact Checked(string station, string at, CheckMoment moment, double deviationDb, params string[] devices) => At(at, new ChainChecked(
        station, moment, devices, "K1", CertificateOfK1.Id.ToString(), null, null, false, CheckMethod.Voltage,
        [20e-6 * Math.Pow(10, (94 - 38.16 + deviationDb) / 20)], null, 10, 94, [new("certificate", 94, 0.05, "certificate of K1", null)],
        -38.16 + deviationDb, "V/Pa", null, [new("microphone's certificate", -38.16, 0.03, "certificate of the microphone", null)], deviationDb,
        [new("certificate", "certificate of K1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal), new("one insertion, assumed", BudgetLine.Own + "insertions", 0.03, "dB", 1, 4, UncertaintyDistribution.Normal)],
        0.0583, 2, 0.1166, null, null), ["campaign:" + C, "device:K1", .. devices.Select(d => "device:" + d)]);

    private static Fact Of(FactBody body, string day, params string[] subjects) => FactText.WriteDerived(new(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), "P1", "desk", 0), body, subjects);

    private static Fact At(string at, FactBody body, params string[] subjects) =>
        FactText.WriteDerived(new(Occurred.TryParse(at, out var occurred) ? occurred : throw new ArgumentException(at, nameof(at)), "P1", "phone-1.ABCD", 1), body, subjects);
}
