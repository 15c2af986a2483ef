using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Every caution of corrections by band has a case in which it is given; its words are stated here by hand.</summary>
public sealed class BandCautionTests
{
    private static readonly string Whole = new('a', 64), High = new('b', 64), Exact = new('c', 64), Angles = new('d', 64);

    private static readonly string Missing = new('e', 64);

    private static readonly Dictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> Files = new()
    {
        [Whole] = [(null, new([new(10, 0, 0.1), new(250, 0, 0.1), new(20_000, 0, 0.1)]))],
        [High] = [(null, new([new(250, 0, 0.1), new(20_000, 0, 0.1)]))],
        [Exact] = [(null, new([new(10, 0, null), new(20_000, 0, null)]))],
        [Angles] = [(0, new([new(10, 0, 0.1), new(20_000, 0, 0.1)])), (60, new([new(10, 0, 0.1), new(20_000, -3, 0.1)]))],
    };

    private static readonly Fact Pressure = Curve(Whole);

    public static TheoryData<string> Keys => [.. BandCautions.All.Select(q => q.Key)];

    [Theory]
    [MemberData(nameof(Keys))]
    public void Each_caution_is_given_where_something_is_the_matter_and_not_where_nothing_is(string key)
    {
        var caution = BandCautions.All.Single(q => q.Key == key);
        var wrong = Cases().Single(c => c.Key == key);

        var context = Of(wrong.Station, wrong.Facts);
        Assert.StartsWith(wrong.Says, Assert.Single(caution.Ask(context)), StringComparison.Ordinal);
        Assert.Equal(BandCautions.All.SelectMany(q => q.Ask(context)), Corrections(wrong.Station, wrong.Facts).Cautions);

        Assert.Empty(caution.Ask(Of("S1", [Pressure, Heath.Incidence(0)])));
    }

    [Fact]
    public void Each_caution_has_a_plain_key_of_its_own_and_one_case()
    {
        var keys = BandCautions.All.Select(q => q.Key).ToList();

        Assert.Equal(keys.Distinct(StringComparer.Ordinal), keys);
        Assert.All(keys, k => Assert.Matches("^[a-z]+(-[a-z]+)*$", k));
        Assert.Equal(keys, Cases().Select(c => c.Key));
    }

    private static List<Case> Cases() =>
    [
        new("mount", "Direct and reflected sound interfere", "S2", []),
        new("reference-unknown", "Nothing states the frequency of the sensitivity; responses are taken relative to 250 Hz.", "S1", [
            Pressure, Heath.Chosen(SensitivityRule.Certificate),
            Make.Of(Make.Issued(-38.06) with { FrequencyHz = null }, "2026-03-02", "device:M1")]),
        new("curve-unusable", "The curve of Microphone Model 101 of 2026-03-05 is not here", "S1", [Curve(Missing)]),
        new("no-response", "No response of Microphone Model 101 is on record", "S1", []),
        new("no-insertion-loss", "No insertion loss of Windscreen or rain protection Model 701 is on record", "S1", [
            Make.Registered("W1", "701", "windscreen"), Heath.Placed("S1", "06-02 06:10", [.. Heath.Chain("S1"), "W1"])]),
        new("no-angle", "No angle of incidence is stated: the middle of all curves is taken", "S1", [Curve(Angles)]),
        new("one-angle", "No angle of incidence is stated: the curve of Microphone Model 103 holds for 0°", "S3", [
            Curve(Whole, "free-field", "M3")]),
        new("no-uncertainty", "The response of Microphone Model 101 is stated without an uncertainty", "S1", [
            Curve(Exact), Heath.Incidence(0)]),
        new("open-bands", "Bands without a sum lie outside of what the curves hold", "S1", [Curve(High), Heath.Incidence(0)]),
        new("outside-mount", "In bands that are marked the mount does not keep its normalisation.", "S4", [
            Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C))]),
    ];

    private static Fact Curve(string sha256, string field = "pressure", string microphone = "M1") =>
        Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = sha256, Field = field }, "2026-03-05", "device:" + microphone);

    private static BandContext Of(string station, Fact[] facts)
    {
        var register = Flown(station, facts);
        return BandCorrections.ContextOf(Heath.One(register, station: station), register.Campaign(Heath.C)!.Plan, Files.GetValueOrDefault)!;
    }

    private static BandCorrections Corrections(string station, Fact[] facts)
    {
        var register = Flown(station, facts);
        return BandCorrections.Of(Heath.One(register, station: station), register.Campaign(Heath.C)!.Plan, Files.GetValueOrDefault)!;
    }

    // S4 borrows the chain of S1.
    private static Register Flown(string station, Fact[] facts)
    {
        var parts = Heath.Chain(station == "S4" ? "S1" : station);
        var known = Heath.With(facts); // a check is made at a station that is planned
        return Heath.With(
        [
            Heath.Placed(station, "06-02 06:00", parts),
            Heath.Checked(station, "06-02 06:30", CheckMoment.Before, -38.11, devices: parts, on: known),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked(station, "06-02 16:00", CheckMoment.After, -38.19, devices: parts, on: known),
            .. facts,
        ]);
    }

    private sealed record Case(string Key, string Says, string Station, Fact[] Facts);
}
