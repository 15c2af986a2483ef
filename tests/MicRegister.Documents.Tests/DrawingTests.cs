using System.Xml.Linq;
using MicRegister.Documents.Drawings;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
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
        var device = FactList.RegisterOf([Registered, Result("2020-01-01", -26), Result("2022-01-01", -26.05), wrong,
            FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 0), new FactAnnulled(wrong.Id.ToString(), "wrong"), ["device:A1"])]).Device("A1")!;

        var plot = HistoryPlot.Of(device, 0.3, new(2023, 1, 1))!;

        var values = plot.Shapes.OfType<Mark>().Where(m => m.Role == Role.Value).ToList();
        Assert.Equal(2, values.Count);
        Assert.True(values[0].Y < values[1].Y); // 0.05 dB higher stands higher
        Assert.Contains("deviation +0.050 dB", values[0].Tip, StringComparison.Ordinal);
        Assert.Equal(2, plot.Shapes.Count(s => s.Role == Role.Uncertainty));
        Assert.Equal(2, plot.Shapes.Count(s => s.Role == Role.Limit));
        Assert.Single(plot.Shapes.OfType<Line>(), l => l.Role == Role.Band && l.IsArea);
        Assert.Single(plot.Shapes.OfType<Mark>(), m => m is { Role: Role.Annulled, Form: MarkForm.Cross });
        Assert.All(plot.Shapes.OfType<Line>().SelectMany(l => l.Points), p => Assert.True(p.X >= 0 && p.X <= plot.WidthMm && p.Y >= 0 && p.Y <= plot.HeightMm, $"{p}"));
    }

    [Fact]
    public void Without_a_result_there_is_no_history_and_one_result_of_today_needs_no_band()
    {
        Assert.Null(HistoryPlot.Of(FactList.RegisterOf([Registered]).Device("A1")!, 0.3, new(2023, 1, 1)));
        var plot = HistoryPlot.Of(FactList.RegisterOf([Registered, Result("2022-01-01", -26)]).Device("A1")!, null, new(2022, 1, 1))!;
        Assert.DoesNotContain(plot.Shapes, s => s.Role is Role.Band or Role.Limit);
    }

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

    private static readonly Fact Registered = FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("microphone", null, null, "1", []), ["device:A1"]);

    private static Fact Result(string day, double levelDb) => FactText.WriteDerived(FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), 5),
        new CertificateIssued("sensitivity", null, null, null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, levelDb, "dB re 1 V/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null), ["device:A1"]);

    private static CampaignState Campaign(params (string Name, double Lat, double Lon)[] stations) => FactList.RegisterOf([
        FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 6), new CampaignPlanned("Trial", new(2026, 1, 1), new(2026, 1, 2), "UTC", [], "", 0, SourceClass.Jet, 50, 1000, null, null, "engineering-practice", 0, null), ["campaign:C"]),
        .. stations.Select(s => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 7), new StationPlanned(s.Name, s.Lat, s.Lon, Mount.Pole, null), ["campaign:C"]))]).Campaign("C")!;
}
