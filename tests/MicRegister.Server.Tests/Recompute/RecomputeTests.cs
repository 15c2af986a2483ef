using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>
/// Every figure of a trace is worked out again from the facts that it cites alone, by recompute.py. Whatever it lacks was not cited.
/// </summary>
public sealed partial class RecomputeTests
{
    private const int Rounds = 60;
    private const double Db = 1e-6;

    // Each sort of figure, and each way to come by one, is met at least so often in the random registers.
    private const int Least = 50;

    private const string Sorts = """
        after.budget[].degreesOfFreedom
        after.budget[].sensitivity
        after.budget[].standardUncertainty
        after.calibratorDb
        after.calibratorTerms[].standardDb
        after.calibratorTerms[].valueDb
        after.coverageFactor
        after.deviationCoverageFactor
        after.deviationDb
        after.deviationStandardDb
        after.expandedDb
        after.expectedTerms[].standardDb
        after.expectedTerms[].valueDb
        after.indicatedDb
        after.sensitivityDb
        after.standardDb
        applied.budget[].contributionDb
        applied.budget[].degreesOfFreedom
        applied.budget[].fullScaleContributionDb
        applied.budget[].fullScaleSensitivity
        applied.budget[].sensitivity
        applied.budget[].standardUncertainty
        applied.coverageFactor
        applied.expandedDb
        applied.fullScaleDb
        applied.fullScalePerPascal
        applied.fullScaleTerms[].standardDb
        applied.fullScaleTerms[].valueDb
        applied.inFullScale.coverageFactor
        applied.inFullScale.expandedDb
        applied.inFullScale.sensitivity.coverageFactor
        applied.inFullScale.sensitivity.expandedDb
        applied.inFullScale.sensitivity.standardDb
        applied.inFullScale.standardDb
        applied.mountAndDirection.coverageFactor
        applied.mountAndDirection.expandedDb
        applied.mountAndDirection.standardDb
        applied.normalisationDb
        applied.referenceHz
        applied.sensitivity.coverageFactor
        applied.sensitivity.expandedDb
        applied.sensitivity.standardDb
        applied.standardDb
        applied.terms[].standardDb
        applied.terms[].valueDb
        applied.usableFromHz
        applied.usableToHz
        applied.voltsDb
        applied.voltsPerPascal
        before.budget[].degreesOfFreedom
        before.budget[].sensitivity
        before.budget[].standardUncertainty
        before.calibratorDb
        before.calibratorTerms[].standardDb
        before.calibratorTerms[].valueDb
        before.coverageFactor
        before.deviationCoverageFactor
        before.deviationDb
        before.deviationStandardDb
        before.expandedDb
        before.expectedTerms[].standardDb
        before.expectedTerms[].valueDb
        before.indicatedDb
        before.sensitivityDb
        before.standardDb
        curves[].angleDeg
        difference.coverageFactor
        difference.db
        difference.standardDb
        inPlace[].chains
        inPlace[].expandedDb
        inPlace[].limitDb
        inPlace[].movedDb
        incidence.angleDeg
        incidence.halfWidthDeg
        links[].differenceDb
        term: check after
        term: check before
        term: mean of the checks before and after
        term: microphone's certificate
        term: microphone, between its certificates
        term: microphone, to the air of the event
        term: preamplifier's gain
        term: what is in doubt
        """;

    [Fact]
    public async Task Every_figure_of_random_registers_comes_out_of_the_cited_facts_alone()
    {
        var all = new List<Case>();
        for (var seed = 1; seed <= Rounds; seed++)
        {
            var register = FactList.RegisterOf(BusyHeath.Of(seed));
            foreach (var e in EventBook.OfCampaign(register, Heath.C)) all.AddRange(CasesOf(register, e.Id, $"seed {seed}"));
        }
        var counts = await Compare(all);
        // What is not in this list is new: it has to come out of the cited facts too, and be met often enough.
        Assert.Equal(Sorts.Split('\n', StringSplitOptions.TrimEntries), counts.Keys);
        Assert.All(counts, c => Assert.True(c.Value >= Least, $"{c.Key} was worked out {c.Value} times only."));
    }

    [Fact]
    public async Task Every_figure_of_flights_over_the_demo_comes_out_of_the_cited_facts_alone()
    {
        var demo = DemoFlights.Over((await ServerUnderTest.Reading(withDemo: true)).Live.Now);
        List<Case> all = [.. CasesOf(demo, DemoFlights.Morning, "demo"), .. CasesOf(demo, DemoFlights.Noon, "demo")];
        var counts = await Compare(all);
        var stations = demo.Campaign(DemoFlights.C)!.Chains.Count;
        Assert.All(
            ["applied.voltsDb", "applied.fullScaleDb", "applied.expandedDb", "before.calibratorDb", "after.deviationDb", "difference.db"],
            sort => Assert.Equal(2 * stations, counts[sort]));
    }

    [Fact]
    public void Without_python_a_test_fails_and_says_what_is_missing() => Assert.Contains(
        "There is no /nowhere/python3 and no python3 in PATH (package python3)",
        Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => SecondImplementation.Python("/nowhere/python3", "/nowhere:/neither")).Message,
        StringComparison.Ordinal);

    private static IEnumerable<Case> CasesOf(Register.Register register, string id, string where)
    {
        var trace = Tracer.Of(register, id)!;
        foreach (var station in trace.Stations)
        {
            var view = JsonSerializer.SerializeToNode(TraceView.StationView.Of(station), CitedFacts.Web)!.AsObject();
            yield return new(
                $"{where}, {id}, {station.Station}", TraceFigures.Of(station, view), CitedFacts.Of(register, trace, station, view));
        }
    }

    // Of each sort of figure, by its place without the numbers of lists: how many were held against each other.
    private static async Task<SortedDictionary<string, int>> Compare(List<Case> cases)
    {
        var answers = await SecondImplementation.Answers(new JsonArray([.. cases.Select(c => c.Given)]));
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var wrong = new List<string>();
        foreach (var (one, answer) in cases.Zip(answers))
        {
            if ((string?)answer["missing"] is { } missing)
            {
                wrong.Add($"{one.Where}: not to be worked out from what is cited: {missing}");
                continue;
            }
            var second = answer["figures"]!.AsObject().ToDictionary(f => f.Key, f => (double)f.Value!, StringComparer.Ordinal);
            foreach (var (place, value) in one.Figures)
            {
                if (!second.Remove(place, out var again)) wrong.Add($"{one.Where}: {place} is {value:R} and was not worked out");
                else if (!(Math.Abs(value - again) <= Within(place, value)))
                    wrong.Add($"{one.Where}: {place} is {value:R}, by the cited facts {again:R}");
                var sort = Number().Replace(place, "[]");
                counts[sort] = counts.GetValueOrDefault(sort) + 1;
            }
            foreach (var term in one.Given["named"]!["terms"]?.AsArray() ?? [])
            {
                var name = "term: " + (string)term!["name"]!;
                counts[name] = counts.GetValueOrDefault(name) + 1;
            }
            wrong.AddRange(second.Select(s => $"{one.Where}: {s.Key} is not in the trace and comes out as {s.Value:R}"));
        }
        Assert.True(wrong.Count == 0, $"{wrong.Count} figures do not come out of what is cited:\n{string.Join('\n', wrong.Take(40))}");
        return counts;
    }

    // 1e-6 dB of a level; of a sensitivity in V/Pa the same as a ratio; of a frequency the digits that it has.
    private static double Within(string place, double value) =>
        place.EndsWith("PerPascal", StringComparison.Ordinal) ? Math.Abs(value) * Db * Math.Log(10) / 20
        : place.EndsWith("Hz", StringComparison.Ordinal) ? Math.Abs(value) * 1e-12
        : Db;

    [GeneratedRegex(@"(\[[^\]]*\])+")]
    private static partial Regex Number();

    private sealed record Case(string Where, Dictionary<string, double> Figures, JsonObject Given);
}
