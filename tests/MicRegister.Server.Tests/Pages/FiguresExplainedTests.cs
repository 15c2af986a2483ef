using System.Globalization;
using MicRegister.Documents.Tests;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;
using MicRegister.Server.Pages.Campaigns;
using MicRegister.Server.Pages.Events;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What a figure says of itself leads back to the figure: terms, sources and chances, worked out a second time by hand.</summary>
public sealed class FiguresExplainedTests : PageContext
{
    [Fact]
    public async Task The_terms_of_a_level_add_up_to_it_and_its_sources_to_its_uncertainty()
    {
        await Live.Submit([.. LargeArray.Facts(2, 1)], "test");
        var station = Tracer.Of(Live.Now, LargeArray.Event(0))!.Stations[0];
        var applied = station.Applied!;

        var (volts, u) = (EventFigures.Volts(station), EventFigures.Uncertainty(station));

        Assert.NotEmpty(volts.Inputs);
        Assert.Equal(applied.VoltsDb, volts.Inputs.Sum(Value), 0.0005 * (volts.Inputs.Count + 1)); // each is rounded to 0.001 dB
        Assert.StartsWith(Number(applied.VoltsDb, 3), volts.Value, StringComparison.Ordinal);
        // u² = Σ uᵢ², U = k u: of four decimals each.
        Assert.Equal(applied.StandardDb, Math.Sqrt(u.Inputs.Sum(i => Math.Pow(Value(i), 2))), 0.0005);
        Assert.Contains(Number(applied.StandardDb, 4), u.Formula, StringComparison.Ordinal);
        // M = 10^(L/20) V/Pa.
        var mv = EventFigures.Millivolts(station);
        Assert.Equal(1000 * Math.Pow(10, Value(mv.Inputs[0]) / 20), double.Parse(mv.Value.Split(' ')[0].Replace('−', '-'), CultureInfo.InvariantCulture), 0.02);
        Assert.All(new[] { volts, u, mv }, d => Assert.Equal(station.Links.Count, d.Facts.Count));
        Assert.All(volts.Facts, f => Assert.StartsWith("devices/", f.Address, StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_cautioned_beside_the_verdict_stands_beside_each_figure()
    {
        var report = Report([("S1", 0, ReadinessVerdict.Undecided), ("S2", 0.5, ReadinessVerdict.Ready)]);

        Assert.Contains("1 stations are undecided", ChanceFigures.Whole(report).Doubt, StringComparison.Ordinal);
        Assert.Null(ChanceFigures.Whole(Report([("S2", 0.5, ReadinessVerdict.Ready)])).Doubt);
    }

    [Fact]
    public void The_chance_of_the_array_names_the_weakest_stations_and_is_their_product()
    {
        var report = Report([("S3", 0.9, ReadinessVerdict.Ready), ("S1", 0.5, ReadinessVerdict.AtRisk), ("S2", 1, ReadinessVerdict.Ready)]);

        var whole = ChanceFigures.Whole(report);
        Assert.Equal(["S1", "S3"], whole.Inputs.Select(i => i.Name));
        Assert.Equal(0.45, whole.Inputs.Aggregate(1.0, (p, i) => p * Value(i)), 1e-9);
        Assert.Equal("0.450", whole.Value);
        Assert.Equal("stations that may fail", ChanceFigures.WithLosses(report, 2).Inputs[0].Name);
        Assert.Equal("2", ChanceFigures.WithLosses(report, 2).Inputs[0].Value);

        var many = ChanceFigures.Whole(Report([.. Enumerable.Range(1, 20).Select(i => ($"S{i:00}", 1 - (i / 100.0), ReadinessVerdict.Ready))]));
        Assert.Equal(13, many.Inputs.Count);
        Assert.Equal(("8 more", "each at least 0.920"), (many.Inputs[^1].Name, many.Inputs[^1].Value)); // S20 to S09 are named, S08 is next
    }

    [Fact]
    public void A_spare_that_does_not_count_says_why()
    {
        var report = Report([("S1", 1, ReadinessVerdict.Ready)]) with
        {
            Spares = [new("M1", "Microphone 1", "microphone", 0.8, 3, null), new("M2", "Microphone 2", "microphone", 0, 0, "is out of service")],
        };

        var inputs = ChanceFigures.WithSpares(report, 1).Inputs;

        Assert.Equal([("0.800", "could stand in at 3 stations"), ("does not count", "is out of service")], inputs.Select(i => (i.Value, i.Source)));
    }

    private static ReadinessReport Report((string Station, double P, ReadinessVerdict Verdict)[] stations) => new(
        "C1", "One", new(2026, 8, 1), new(2026, 9, 1), new(2026, 9, 9), "usual", ReadinessVerdict.AtRisk,
        [.. stations.Select(s => new StationReadiness(s.Station, s.Verdict, s.P, []))], [],
        stations.Aggregate(1.0, (p, s) => p * s.P), 0.9, 0.95, 0, null!);

    private static double Value(DerivationInput input) =>
        double.Parse(input.Value.Split(' ')[0].Replace('−', '-'), CultureInfo.InvariantCulture);

    private static string Number(double value, int decimals) => Metrology.Quantities.QuantityText.Number(value, decimals);
}
