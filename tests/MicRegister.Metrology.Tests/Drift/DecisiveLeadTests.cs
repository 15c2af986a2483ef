using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Tests.Drift;

/// <summary>When a lasting step and a bad result are told apart: by a lead of more than 2 between the squares of their z.</summary>
public sealed class DecisiveLeadTests
{
    private const int Results = 12;
    private const double UncertaintyDb = 0.05;

    // Without walk and slope each pattern is held against the mean: z = p'y / (u |p'|), with p' the pattern less its own mean.
    // A step of s before result 7 of 12 with b more in that result, in units of u: p'p' is 3 for the step and 11/12 for the result, their
    // product 1/2. z_S^2 - z_B^2 = (3 s + b/2)^2 / 3 - (s/2 + 11 b/12)^2 · 12/11 = 30/11 s^2 - 5/6 b^2. With s = 4:
    // b^2 = (480/11 - lead) · 6/5.
    [Theory]
    [InlineData(2.5, DriftFindingKind.LastingStep)]
    [InlineData(2.01, DriftFindingKind.LastingStep)]
    [InlineData(1.99, DriftFindingKind.Undecided)]
    [InlineData(1.5, DriftFindingKind.Undecided)]
    [InlineData(1.01, DriftFindingKind.Undecided)]
    [InlineData(-1.01, DriftFindingKind.Undecided)]
    [InlineData(-1.5, DriftFindingKind.Undecided)]
    [InlineData(-1.99, DriftFindingKind.Undecided)]
    [InlineData(-2.01, DriftFindingKind.BadResult)]
    [InlineData(-2.5, DriftFindingKind.BadResult)]
    public void A_lead_of_two_decides_and_less_does_not(double lead, DriftFindingKind expected)
    {
        const double step = 4;
        var more = Math.Sqrt(((480 / 11.0) - lead) * 6 / 5);
        double[] levels = [.. Enumerable.Range(0, Results).Select(i => UncertaintyDb * ((i >= 6 ? step : 0) + (i == 6 ? more : 0)))];
        double[] days = [.. Enumerable.Range(0, Results).Select(i => 730_000.0 + (365 * i))];
        var history = new ResultHistory(days, levels, [.. Enumerable.Repeat(UncertaintyDb, Results)]);

        var found = StepScan.Find(history, walk: 0, slopeSpread: 0, scale: 1)[0];

        Assert.Equal((expected, 6), (found.Kind, found.Index));
        AssertClose.Absolute(lead, found.Lead, 1e-6);
        var asResult = ((step / 2) + (11 * more / 12)) / Math.Sqrt(11 / 12.0);
        var z = expected == DriftFindingKind.BadResult ? asResult : ((3 * step) + (more / 2)) / Math.Sqrt(3);
        AssertClose.Relative(z, found.Z, 1e-6);
    }

    // A step of 8 u before result 7, or a result that is 12 u off: once a person looked at it, its neighbours share nothing more with what
    // is left.
    [Theory]
    [InlineData(8, 0)]
    [InlineData(0, 12)]
    public void What_was_looked_at_is_not_found_in_its_neighbours(double step, double more)
    {
        double[] levels = [.. Enumerable.Range(0, Results).Select(i => UncertaintyDb * ((i >= 6 ? step : 0) + (i == 6 ? more : 0)))];
        double[] days = [.. Enumerable.Range(0, Results).Select(i => 730_000.0 + (365 * i))];
        double[] u = [.. Enumerable.Repeat(UncertaintyDb, Results)];

        Assert.Equal(6, StepScan.Find(new(days, levels, u), walk: 0, slopeSpread: 0, scale: 1)[0].Index);
        Assert.Empty(StepScan.Find(new(days, levels, u, reviewed: [6]), walk: 0, slopeSpread: 0, scale: 1));
    }
}
