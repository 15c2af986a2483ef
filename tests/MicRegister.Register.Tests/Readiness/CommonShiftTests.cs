using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// What microphones share whose newest result is of one laboratory and day: 0.7 of the middle one of their standard uncertainties.
/// </summary>
public sealed class CommonShiftTests
{
    // U = 0.06 and 0.10 dB at k = 2 are u = 0.03 and 0.05 dB; of two the greater is taken: 0.7 · 0.05 = 0.035 dB.
    [Fact]
    public void Microphones_of_one_laboratory_and_day_share_a_shift()
    {
        var outlook = Judged(Result("M1", "2026-04-01", 0.06, "House"), Result("M2", "2026-04-01", 0.10, "House"));

        Assert.Equal(0.035, outlook.ShiftDb, 1e-12);
    }

    [Theory]
    [InlineData("2026-04-01", "Elsewhere")]
    [InlineData("2026-04-02", "House")]
    public void Another_day_or_laboratory_shares_nothing(string day, string laboratory) =>
        Assert.Equal(0, Judged(Result("M1", "2026-04-01", 0.06, "House"), Result("M2", day, 0.06, laboratory)).ShiftDb);

    [Fact]
    public void Where_nobody_named_a_laboratory_nothing_is_shared() =>
        Assert.Equal(0, Judged(Result("M1", "2026-04-01", 0.06, null), Result("M2", "2026-04-01", 0.06, null)).ShiftDb);

    // Without a stated uncertainty nothing is forecast of M1: its station counts as it stands, in both reckonings alike.
    [Fact]
    public void A_microphone_without_a_forecast_counts_as_its_station_does()
    {
        var results = Enumerable.Range(2022, 5).SelectMany(y => new[]
        {
            Make.Annulling(Make.Certificate("M1", $"{y}-03-01", -38.06 + (0.005 * ((y + 1) % 2)))),
            Make.Certificate("M1", $"{y}-03-02", -38.06, null),
        });

        var report = ReadinessTests.Judge([.. ReadinessTests.Sound(), .. results]);

        Assert.Contains(report.Findings, f => f.Rule == "no-uncertainty");
        Assert.Equal(report.ArrayProbability, report.Common.AllHold, 1e-9);
    }

    private static ArrayOutlook Judged(params Fact[] more) => ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]).Common;

    private static Fact Result(string device, string day, double expanded, string? laboratory) =>
        Make.Of(Make.Issued(-38.06, expanded) with { Laboratory = laboratory }, day, "device:" + device);
}
