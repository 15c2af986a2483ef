using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Checks;

/// <summary>Levels of a calibrator, one after the other.</summary>
public sealed class CalibratorSheetTests
{
    // Whichever of two certificates of a day counts as the earlier, it is that one for both: one step of 0.30 dB, and no second one back.
    [Fact]
    public void Of_two_certificates_of_one_day_one_is_the_earlier_and_is_compared_with_nothing()
    {
        Fact one = Level("2026-01-05", 94.00, 1), other = Level("2026-01-05", 94.30, 2);
        foreach (var order in new Fact[][] { [one, other], [other, one] })
        {
            var register = FactList.RegisterOf([Make.Registered("K1", "51", "sound-calibrator"), .. order]);
            var steps = CalibratorSheet.Of(register.Device("K1")!, 0.2);

            Assert.Equal([null, new DateOnly(2026, 1, 5)], steps.Select(s => s.Before));
            Assert.Equal([null, false], steps.Select(s => s.Holds));
            Assert.Null(steps[0].ChangeDb);
            Assert.Equal(steps[1].LevelDb - steps[0].LevelDb, steps[1].ChangeDb!.Value, 1e-12);
            Assert.Equal(0.30, Math.Abs(steps[1].ChangeDb!.Value), 1e-9);
        }
    }

    [Fact]
    public void Each_level_is_held_against_the_newest_before_it()
    {
        var steps = Steps(
            0.2, Level("2024-01-05", 94.00), Level("2025-01-05", 94.19), Level("2026-01-05", 94.39), Level("2026-07-05", 94.18));

        Assert.Equal([null, 0.19, 0.20, -0.21], steps.Select(s => s.ChangeDb is { } c ? Math.Round(c, 9) : (double?)null));
        Assert.Equal([null, true, true, false], steps.Select(s => s.Holds)); // at the limit it holds
        Assert.Equal([null, "2024-01-05", "2025-01-05", "2026-01-05"], steps.Select(s => s.Before?.ToString("yyyy-MM-dd", null)));
        Assert.Equal(0.1, steps[0].ExpandedDb!.Value, 1e-12); // U at k = 2 as stated
        Assert.All(Steps(null, Level("2024-01-05", 94.00), Level("2025-01-05", 99)), s => Assert.Null(s.Holds));
    }

    // 94 dB and 114 dB of one calibrator are two levels; so are results at two frequencies. Annulled ones are none.
    [Fact]
    public void Levels_that_do_not_compare_are_passed_over()
    {
        var annulled = Level("2025-03-05", 94.50);
        var steps = Steps(
            0.2, Level("2024-01-05", 94.00), Level("2025-01-05", 114.00), annulled, Make.Annulling(annulled), Level("2026-01-05", 94.05));

        Assert.Equal([null, null, 0.05], steps.Select(s => s.ChangeDb is { } c ? Math.Round(c, 9) : (double?)null));
        var kilohertz = Make.Of(Make.Issued(94.5, 0.1, "level", "dB") with { FrequencyHz = 1000 }, "2026-02-05", "device:K1");
        Assert.Null(Steps(0.2, Level("2024-01-05", 94.00), kilohertz)[^1].ChangeDb);
        // Just one level still.
        Assert.Equal(4.9, Steps(0.2, Level("2024-01-05", 94.00), Level("2026-01-05", 98.90))[^1].ChangeDb!.Value, 1e-9);
        Assert.Null(Steps(0.2, Level("2024-01-05", 94.00), Level("2026-01-05", 99.10))[^1].ChangeDb);
    }

    private static IReadOnlyList<CalibratorStep> Steps(double? limitDb, params Fact[] facts) =>
        CalibratorSheet.Of(FactList.RegisterOf([Make.Registered("K1", "51", "sound-calibrator"), .. facts]).Device("K1")!, limitDb);

    private static Fact Level(string day, double levelDb, int counter = 0) =>
        Make.Of(Make.Issued(levelDb, 0.1, "level", "dB"), day, counter, "device:K1");
}
