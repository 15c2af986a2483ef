using System.Text.Json.Nodes;
using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;

namespace MicRegister.Metrology.Tests.Drift;

/// <summary>
/// The drift model against a second implementation by dense matrices: Reference/drift_model.py, figures in drift-cases.json
/// (recomputed with numpy 1.24.2, scipy 1.10.1).
/// </summary>
public sealed class DriftModelTests
{
    private const double Tight = 1e-9;

    private static readonly JsonNode Reference = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Reference", "drift-cases.json")))!;

    private static readonly Dictionary<string, JsonNode> Cases = Reference["cases"]!.AsArray().ToDictionary(c => (string)c!["name"]!, c => c!);

    public static TheoryData<string> Names => [.. Cases.Keys];

    internal static ResultHistory HistoryOf(JsonNode device) => new(Doubles(device["days"]!), Doubles(device["levels"]!), Doubles(device["u"]!));

    private static double[] Doubles(JsonNode array) => [.. array.AsArray().Select(v => (double)v!)];

    private static FleetDrift FleetOf(string name) => FleetDrift.Estimate([.. Cases[name]["devices"]!.AsArray().Select(d => HistoryOf(d!))]);

    [Theory]
    [MemberData(nameof(Names))]
    public void The_pool_is_that_of_the_second_implementation(string name)
    {
        var (fleet, expected) = (FleetOf(name), Cases[name]);

        AssertClose.Relative((double)expected["wP"]!, fleet.Pool.Walk, Tight);
        AssertClose.Relative((double)expected["tauP"]!, fleet.Pool.SlopeSpread, Tight);
        AssertClose.Relative((double)expected["kappaP"]!, fleet.Pool.ScanScale, Tight);
        Assert.Equal(((int)expected["rounds"]!, (bool)expected["settled"]!), (fleet.Rounds, fleet.IsSettled));
        foreach (var node in expected["logWeights"]!.AsArray())
        {
            var at = node!["node"]!.AsArray().Select(i => (int)i!).ToArray();
            AssertClose.Absolute((double)node["value"]!, fleet.Pool.LogWeights[DriftGrid.Node(at[0], at[1], at[2])], 1e-9);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Steps_and_bad_results_are_those_of_the_second_implementation(string name)
    {
        var (fleet, results) = (FleetOf(name), Cases[name]["results"]!.AsArray());
        for (var i = 0; i < fleet.Count; i++)
        {
            var expected = results[i]!["findings"]!.AsArray();
            Assert.Equal(expected.Select(f => ((string)f!["kind"]!, (int)f["index"]!)), fleet.Findings(i).Select(f => (Word(f.Kind), f.Index)));
            for (var k = 0; k < expected.Count; k++)
            {
                AssertClose.Relative((double)expected[k]!["size"]!, fleet.Findings(i)[k].SizeDb, 1e-8);
                AssertClose.Relative((double)expected[k]!["z"]!, fleet.Findings(i)[k].Z, 1e-8);
                AssertClose.Absolute((double)expected[k]!["lead"]!, fleet.Findings(i)[k].Lead, 1e-6);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Forecasts_bands_and_probabilities_are_those_of_the_second_implementation(string name)
    {
        var (fleet, results) = (FleetOf(name), Cases[name]["results"]!.AsArray());
        for (var i = 0; i < fleet.Count; i++)
        {
            var (device, expected) = (fleet.Forecast(i), results[i]!);
            Assert.Equal((double)expected["ref"]!, device.ReferenceDb);
            foreach (var f in expected["forecasts"]!.AsArray())
            {
                var forecast = device.At((double)f!["day"]!);
                AssertClose.Absolute((double)f["level"]!, forecast.LevelDb, Tight);
                AssertClose.Relative((double)f["sd"]!, forecast.StandardDeviationDb, Tight);
                var (low, high) = forecast.Band();
                AssertClose.Absolute((double)f["low"]!, low, Tight);
                AssertClose.Absolute((double)f["high"]!, high, Tight);
                AssertClose.Absolute((double)f["p2"]!, forecast.ProbabilityWithin(device.ReferenceDb, 0.2), Tight);
                AssertClose.Absolute((double)f["p3"]!, forecast.ProbabilityWithin(device.ReferenceDb, 0.3), Tight);
            }
            Assert.Equal(expected["halves"] is not null, device.IsNewestOpen);
            for (var h = 0; h < 3 && device.IsNewestOpen; h++)
            {
                var (leftOut, anew) = device.Halves((double)expected["forecasts"]![h]!["day"]!)!.Value;
                AssertClose.Absolute((double)expected["halves"]![h]!["pOut"]!, leftOut.ProbabilityWithin(device.ReferenceDb, 0.2), Tight);
                AssertClose.Absolute((double)expected["halves"]![h]!["pRestart"]!, anew.ProbabilityWithin(device.ReferenceDb, 0.2), Tight);
            }
            var entry = expected["entry"]!;
            AssertClose.Relative((double)entry["z"]!, device.Check((double)entry["day"]!, (double)entry["level"]!, (double)entry["u"]!).Z, Tight);
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Intervals_are_those_of_the_second_implementation(string name)
    {
        var (fleet, results) = (FleetOf(name), Cases[name]["results"]!.AsArray());
        for (var i = 0; i < fleet.Count; i++)
        {
            var (device, expected) = (fleet.Forecast(i), results[i]!);
            Assert.Equal((int)expected["interval"]!, ForecastInterval.Of(device, device.ReferenceDb, 0.2, 0.95).Days);
            Assert.Equal((int)expected["gapCap"]!, ForecastInterval.CapOf(device.History));
            Assert.Equal((int)expected["intervalGap"]!, ForecastInterval.Of(device, device.ReferenceDb, 0.2, 0.95, ForecastInterval.CapOf(device.History)).Days);
        }
    }

    [Theory]
    [InlineData("Q")]
    [InlineData("R")]
    [InlineData("few")]
    [InlineData("twelve")]
    [InlineData("quiet")]
    public void Arrays_with_and_without_a_common_shift_are_those_of_the_second_implementation(string name)
    {
        var fleet = FleetOf(name);
        foreach (var expected in Cases[name]["array"]!.AsArray())
        {
            var devices = Enumerable.Range(0, fleet.Count).Select(fleet.Forecast).Select(d => new ArrayMember(d.At((double)expected!["day"]!), d.ReferenceDb)).ToList();
            Matches(expected!, ArrayForecast.Of(devices, (double)expected!["limit"]!, (double)expected["uc"]!));
        }
    }

    // 72 devices alike, standard deviation 0.08 dB, limit 0.2 dB.
    [Fact]
    public void A_common_shift_makes_an_array_hold_more_often_and_fail_all_together()
    {
        var devices = Enumerable.Repeat(new ArrayMember(LevelForecast.Normal(0, 0.08), 0), 72).ToList();
        foreach (var expected in Reference["arrayTable"]!.AsArray().Where(r => (double)r!["share"]! == 0.75)) Matches(expected!, ArrayForecast.Of(devices, 0.2, (double)expected!["uc"]!));
        // Two halves with a shift of their own each: their numbers outside add up.
        var half = ArrayForecast.Of(devices[..36], 0.2, 0.05);
        AssertClose.Absolute(half.AllWithin * half.AllWithin, half.And(half).AllWithin, 1e-12);
        AssertClose.Absolute(2 * half.MeanOutside, half.And(half).MeanOutside, 1e-6);
        AssertClose.Absolute(0.5, ArrayForecast.Of([new(LevelForecast.Normal(0, 0.001), 0, 0.5)], 0.2, 0).AllWithin, 1e-12);
        var shifted = ArrayForecast.Of(Enumerable.Repeat(new ArrayMember(LevelForecast.Normal(0.1, 0.08), 0), 72).ToList(), 0.2, 0);
        Assert.InRange(shifted.AllWithin, 0.00025, 0.00035);
        AssertClose.Absolute(7.6, shifted.MeanOutside, 0.05);
    }

    private static void Matches(JsonNode expected, ArrayForecast array)
    {
        AssertClose.Absolute((double)expected["product"]!, array.ProductOfSingle, Tight);
        AssertClose.Absolute((double)expected["pAll"]!, array.AllWithin, Tight);
        AssertClose.Absolute((double)expected["meanOutside"]!, array.MeanOutside, 1e-8);
        AssertClose.Absolute((double)expected["sdOutside"]!, array.StandardDeviationOutside, 1e-7);
        Assert.Equal(expected["spares"]!.AsArray().Select(s => (int)s!), new[] { .90, .95, .99 }.Select(array.Spares));
        if (expected["atLeast8"] is { } least) AssertClose.Absolute((double)least, 1 - array.AtMost(7), 1e-8);
    }

    [Fact]
    public void Thresholds_are_those_of_the_normal_distribution()
    {
        foreach (var t in Reference["thresholds"]!.AsArray()) AssertClose.Relative((double)t!["zc"]!, StepScan.Factor(0.01, (int)t["n"]!), 1e-12);
        foreach (var t in Reference["certain"]!.AsArray())
        {
            var z = (double)t!["z"]!;
            Assert.True(new DriftFinding(DriftFindingKind.LastingStep, 1, 1, -z - 1e-9, 9, 3).IsCertain((int)t["devices"]!, (int)t["n"]!));
            Assert.False(new DriftFinding(DriftFindingKind.LastingStep, 1, 1, z - 1e-9, 9, 3).IsCertain((int)t["devices"]!, (int)t["n"]!));
        }
    }

    [Fact]
    public void Likelihoods_of_single_nodes_are_those_of_the_second_implementation()
    {
        var sums = WalkSums.Of(UsedResults.Of(HistoryOf(Cases["Q"]["devices"]![0]!), []));
        var mixed = sums.LogLikelihoods();
        foreach (var node in Cases["Q"]["likelihoods"]!.AsArray())
        {
            var at = node!["node"]!.AsArray().Select(i => (int)i!).ToArray();
            AssertClose.Absolute((double)node["l"]!, sums.LogLikelihood(at[0], at[1], at[2]), 1e-11);
            AssertClose.Absolute((double)node["L"]!, mixed[DriftGrid.Node(at[0], at[1], at[2])], 1e-11);
        }
    }

    private static string Word(DriftFindingKind kind) => kind switch
    {
        DriftFindingKind.LastingStep => "step",
        DriftFindingKind.BadResult => "bad",
        DriftFindingKind.Undecided => "undecided",
        DriftFindingKind.NewestOpen => "newest-open",
        _ => "first-open",
    };
}
