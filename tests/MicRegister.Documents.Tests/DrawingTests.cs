using System.Xml.Linq;
using MicRegister.Documents.Drawings;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Documents.Tests;

public sealed class DrawingTests
{
    // Two stations 0.001° of longitude apart at 60° N: 111.32 m · cos 60° = 55.66 m (hand algebra), so 176 mm of the drawing stand for it
    // and the scale bar, at most 40 mm long, is 10 m or 31.6 mm.
    [Fact]
    public void The_array_is_drawn_in_local_metres_with_scale_and_north()
    {
        var map = ArrayMap.Of(Campaign(("A", 60, 10.000), ("B", 60, 10.001)), new Dictionary<string, ReadinessVerdict> { ["A"] = ReadinessVerdict.Ready, ["B"] = ReadinessVerdict.NotReady });

        var marks = map.Shapes.OfType<Mark>().ToList();
        Assert.Equal([("A", MarkForm.Disc, Role.Ready), ("B", MarkForm.Square, Role.Stop)], marks.Select(m => (m.Key, m.Form, m.Role)));
        Assert.Equal(176, marks[1].X - marks[0].X, 6);
        Assert.Equal(marks[0].Y, marks[1].Y, 6);
        Assert.Contains(map.Shapes.OfType<Label>(), l => l.Text == "10 m");
        Assert.Contains(map.Shapes.OfType<Label>(), l => l.Text == "N");
        var bar = map.Shapes.OfType<Line>().First(l => l.Role == Role.Ink);
        Assert.Equal(10 * 176 / 55.66, bar.Points[2].X - bar.Points[1].X, 2);
    }

    [Fact]
    public void North_is_up_and_a_station_without_a_verdict_is_undecided()
    {
        var marks = ArrayMap.Of(Campaign(("south", 40, 0), ("north", 40.01, 0)), new Dictionary<string, ReadinessVerdict>()).Shapes.OfType<Mark>().ToDictionary(m => m.Key);

        Assert.True(marks["north"].Y < marks["south"].Y);
        Assert.All(marks.Values, m => Assert.Equal(MarkForm.Diamond, m.Form));
    }

    [Fact]
    public void A_campaign_without_stations_says_so() => Assert.Contains("No station", ArrayMap.Of(Campaign(), new Dictionary<string, ReadinessVerdict>()).Title, StringComparison.Ordinal);

    [Fact]
    public void A_history_shows_results_with_error_bars_limits_forecast_and_what_was_annulled()
    {
        var wrong = Result("2022-06-01", -26.2);
        var register = FactList.RegisterOf([Registered, Result("2020-01-01", -26), Result("2022-01-01", -26.05), wrong,
            FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 0), new FactAnnulled(wrong.Id.ToString(), "wrong"), ["device:A1"])]);

        var plot = HistoryPlot.Of(Drift(register), new(new(2023, 1, 1), 0.3, [("Trial", new(2022, 5, 1), new(2022, 5, 20))], [new(new(2022, 5, 2), "Trial", "S1", -0.03)]));

        var values = plot.Shapes.OfType<Mark>().Where(m => m.Role == Role.Value).ToList();
        Assert.Equal(2, values.Count);
        Assert.True(values[0].Y < values[1].Y); // 0.05 dB higher stands higher
        Assert.Contains("deviation +0.050 dB", values[0].Tip, StringComparison.Ordinal);
        Assert.Equal(2, plot.Shapes.Count(s => s.Role == Role.Uncertainty));
        Assert.Equal(2, plot.Shapes.Count(s => s.Role == Role.Limit));
        Assert.Single(plot.Shapes.OfType<Line>(), l => l.Role == Role.Band && l.IsArea);
        Assert.Single(plot.Shapes.OfType<Mark>(), m => m is { Role: Role.Annulled, Form: MarkForm.Cross });
        var check = Assert.Single(plot.Shapes.OfType<Mark>(), m => m.Role == Role.Check);
        Assert.Contains("field check at S1 of Trial, deviation −0.030 dB", check.Tip, StringComparison.Ordinal);
        Assert.Single(plot.Shapes, s => s.Role == Role.Span);
        Assert.Equal(["result", "result", "field check at S1 of Trial", "annulled, not used"], HistoryRow.All(Drift(register), [new(new(2022, 5, 2), "Trial", "S1", -0.03)]).Select(r => r.What));
        Assert.All(plot.Shapes.OfType<Line>().SelectMany(l => l.Points), p => Assert.True(p.X >= 0 && p.X <= plot.WidthMm && p.Y >= 0 && p.Y <= plot.HeightMm, $"{p}"));
    }

    [Fact]
    public void One_result_of_today_needs_no_band()
    {
        var plot = HistoryPlot.Of(Drift(FactList.RegisterOf([Registered, Result("2022-01-01", -26)])), HistoryView.Plain(new(2022, 1, 1), null));
        Assert.DoesNotContain(plot.Shapes, s => s.Role is Role.Band or Role.Limit);
    }

    [Fact]
    public void A_bad_result_is_crossed_out_and_a_step_is_marked_and_both_stay_visible()
    {
        double[] levels = [-26, -26.01, -25.5, -26, -26.02, -25.99, -26.5, -26.51, -26.49, -26.5, -26.51, -26.5];
        // Five quiet devices of the same model tell what scatter is.
        var register = FactList.RegisterOf([Registered, .. levels.Select((l, i) => Result(FormattableString.Invariant($"{2010 + i}-03-01"), l)),
            .. Enumerable.Range(2, 5).SelectMany(d => Enumerable.Range(0, 10).Select(i => Result(FormattableString.Invariant($"{2011 + i}-04-01"), -27 + (0.01 * ((i * 3 % 4) - 1)), "A" + d)).Prepend(Entered("A" + d)))]);

        var plot = HistoryPlot.Of(Drift(register), HistoryView.Plain(new(2023, 1, 1), 0.3));

        Assert.Contains("bad result", Assert.Single(plot.Shapes.OfType<Mark>(), m => m.Role == Role.Annulled).Tip, StringComparison.Ordinal);
        Assert.Single(plot.Shapes, s => s.Role == Role.Change);
        Assert.Equal(12, plot.Shapes.OfType<Mark>().Count(m => m.Form == MarkForm.Disc));
        Assert.Contains(HistoryRow.All(Drift(register), []), r => r is { What: "lasting step", Day.Year: 2016 });
        Assert.NotNull(HistoryLine.Of(register.Device("A1")!));
    }

    [Fact]
    public void Devices_are_compared_each_against_its_own_certificate()
    {
        var register = FactList.RegisterOf([Registered, Result("2020-01-01", -26), Result("2022-01-01", -26.05)]);
        var drift = Drift(register);
        Assert.Null(ComparisonPlot.Of([]));
        var plot = ComparisonPlot.Of([("one", drift.Series), ("two", drift.Series)])!;
        Assert.Equal([MarkForm.Disc, MarkForm.Triangle], plot.Shapes.OfType<Mark>().Select(m => m.Form).Distinct());
        Assert.Contains("one, 2020-01-01: +0.05 dB, U = 0.06 dB", plot.Shapes.OfType<Mark>().First().Tip, StringComparison.Ordinal);
    }

    // A PDF is read back: one page of the drawing's size, 1 mm = 72 / 25.4 points, with the text in it.
    [Fact]
    public void The_pdf_has_the_size_of_the_drawing_and_embeds_its_typeface()
    {
        var register = FactList.RegisterOf([Registered, Result("2020-01-01", -26), Result("2022-01-01", -26.05)]);
        using var content = new MemoryStream();

        PdfPainter.Paint(HistoryPlot.Of(Drift(register), HistoryView.Plain(new(2023, 1, 1), 0.3)), content);

        content.Position = 0;
        using var document = PdfSharp.Pdf.IO.PdfReader.Open(content, PdfSharp.Pdf.IO.PdfDocumentOpenMode.Import);
        var page = Assert.Single(document.Pages.Cast<PdfSharp.Pdf.PdfPage>());
        Assert.Equal(220 * 72 / 25.4, page.Width.Point, 3);
        Assert.Equal(100 * 72 / 25.4, page.Height.Point, 3);
        Assert.Matches("BaseFont.{0,12}Source", System.Text.Encoding.Latin1.GetString(content.ToArray()));
    }

    private static Register.Drift.DeviceDrift Drift(Register.Register register) => register.Drift(new(2030, 1, 1)).Of("A1")!;

    [Fact]
    public void The_file_is_wellformed_in_millimetres_with_invariant_numbers_and_escaped_texts()
    {
        var svg = SvgPainter.Paint(new(100.5, 50, "A & <B>", [new Label(Role.Ink, 1.25, 2, "<x>"), new Mark(Role.Ready, 1, 2, 3, MarkForm.Triangle, "k", "tip \"1\""), new Line(Role.Band, [(0, 0), (1.5, 2)], true)]));

        var root = XDocument.Parse(svg).Root!;
        Assert.Equal(("100.5mm", "0 0 100.5 50"), ((string)root.Attribute("width")!, (string)root.Attribute("viewBox")!));
        Assert.Contains("M0 0L1.5 2z", svg, StringComparison.Ordinal);
        Assert.Contains("&lt;x&gt;", svg, StringComparison.Ordinal);
        Assert.All(Enum.GetValues<MarkForm>(), f => Assert.StartsWith("M", SvgPainter.Form(new(Role.Value, 1, 1, 2, f, "", "")), StringComparison.Ordinal));
    }

    private static readonly Fact Registered = Entered("A1");

    private static Fact Entered(string device) => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("microphone", null, "A-12", device, []), ["device:" + device]);

    private static Fact Result(string day, double levelDb, string device = "A1") => FactText.WriteDerived(FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), 5),
        new CertificateIssued("sensitivity", null, null, null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, levelDb, "dB re 1 V/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null), ["device:" + device]);

    private static CampaignState Campaign(params (string Name, double Lat, double Lon)[] stations) => FactList.RegisterOf([
        FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 6), new CampaignPlanned("Trial", new(2026, 1, 1), new(2026, 1, 2), "UTC", [], "", 0, SourceClass.Jet, 50, 1000, null, null, "engineering-practice", 0, null), ["campaign:C"]),
        .. stations.Select(s => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 7), new StationPlanned(s.Name, s.Lat, s.Lon, Mount.Pole, null), ["campaign:C"]))]).Campaign("C")!;

    // Stood from 08:00, an event of ten minutes from 09:00, checked at 08:30 and 10:30, damaged from the check on: hours from 08:00 to 11:00.
    [Fact]
    public void A_day_is_drawn_by_stations_with_events_checks_and_doubt()
    {
        var day = DayOf("2026-06-02T09:00:00.000Z", "2026-06-02T09:10:00.000Z")!;

        // Before the name, at the event, and above: a microphone without a certificate is not valid.
        var mark = day.Shapes.OfType<Mark>().Single(m => m.Key == "C.E");
        Assert.Equal(3, day.Shapes.OfType<Mark>().Count());
        Assert.Equal("E, 09:00:00 site time: not valid, of 2 stations 0 valid, 0 doubtful, 0 undecided, 2 not valid", mark.Tip);
        Assert.Equal(20 + (206.0 * 65 / 180), mark.X, 1e-6); // 09:05 of three hours on 206 mm
        var bar = Assert.Single(day.Shapes.OfType<Line>(), l => l is { Role: Role.Band, IsArea: true });
        Assert.Equal((20.0, 226.0), (bar.Points[0].X, bar.Points[1].X));
        var span = Assert.Single(day.Shapes.OfType<Line>(), l => l is { Role: Role.Span, IsArea: true });
        Assert.Equal(206.0 * 10 / 180, span.Points[1].X - span.Points[0].X, 1e-6);
        Assert.Contains(day.Shapes, s => s is Line { Role: Role.Change }); // hatched
        Assert.Equal(["08:00", "09:00", "10:00", "11:00"], day.Shapes.OfType<Label>().Where(l => l.Text.Contains(':', StringComparison.Ordinal)).Select(l => l.Text).Distinct());
        Assert.Contains(day.Shapes, s => s is Label { Text: "Nothing stood at one planned station." });
        Assert.Null(DayOf(null, null));
    }

    private static Drawing? DayOf(string? start, string? stop)
    {
        Occurred At(string text) => Occurred.TryParse(text, out var at) ? at : throw new FormatException(text);
        Fact Said(FactBody body, string at, params string[] subjects) => FactText.WriteDerived(new(At(at), "P1", "desk", 1), body, subjects);
        List<Fact> facts =
        [
            Said(new DeviceRegistered("microphone", "Maker", "Model", "1", []), "2020-01-01", "device:M1"),
            Said(new StationPlanned("S1", 53, 1, Mount.Pole, null), "2026-05-01", "campaign:C"),
            Said(new StationPlanned("S2", 53.001, 1, Mount.Pole, null), "2026-05-02", "campaign:C"),
            Said(new ChainPlaced("S1", ["M1"], [], null, null, null, null, null, [], null), "2026-06-02T08:00:00.000Z", "campaign:C", "device:M1"),
            Said(new DeviceServiced(ServiceKind.Damage, "dented", false), "2026-06-02T10:45:00.000Z", "device:M1"),
        ];
        if (start is not null) facts.Add(Said(new EventHappened("E", start, stop!, EventKind.FlyOver, null, [], null), start, "event:C.E", "campaign:C"));
        foreach (var (at, moment) in new[] { ("2026-06-02T08:30:00.000Z", CheckMoment.Before), ("2026-06-02T10:30:00.000Z", CheckMoment.After) })
        {
            facts.Add(Said(new ChainChecked("S1", moment, ["M1"], "K1", "01JD8XK3ZZ0000000000000000", null, null, false, CheckMethod.Voltage, [0.39], null, null, 94, [new("certificate", 94, 0.05, "certificate 1", null)], -38, "V/Pa", null, [], null, [new("certificate", "certificate 1", 0.05, "dB", -1, null, Metrology.Uncertainty.UncertaintyDistribution.Normal)], 0.05, 2, 0.1, null, null), at, "campaign:C", "device:M1", "device:K1"));
        }
        var list = new FactList();
        foreach (var fact in facts) list.Add(fact);
        var register = Register.Register.Empty(list).With(facts);
        return StationDay.Of(register, register.Campaign("C")!, new(2026, 6, 2), EventBook.OfCampaign(register, "C"), CheckBook.OfCampaign(register, "C"));
    }
}
