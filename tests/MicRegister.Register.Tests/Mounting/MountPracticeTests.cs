using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Tests.Mounting;

/// <summary>
/// Practice as people say it (common practice, no source): flush and free field serve jets, propellers and small multirotors, 7 mm
/// inverted serves jets and propellers, 1.2 m jets alone.
/// </summary>
public sealed class MountPracticeTests
{
    [Theory]
    [InlineData(Mount.FlushPlate, true, true, true)]
    [InlineData(Mount.InvertedPlate, true, true, false)]
    [InlineData(Mount.GroundStand, true, false, false)]
    [InlineData(Mount.Pole, true, true, true)]
    public void Practice_takes_what_people_say(Mount mount, bool jet, bool propeller, bool multirotor)
    {
        Assert.Equal(jet, MountPractice.Takes(mount, SourceClass.Jet));
        Assert.Equal(propeller, MountPractice.Takes(mount, SourceClass.Propeller));
        Assert.Equal(multirotor, MountPractice.Takes(mount, SourceClass.SmallMultirotor));
        Assert.Null(MountPractice.Takes(mount, SourceClass.Other));
    }

    // 20 lg 2, 10 lg 2 and 0 dB.
    [Theory]
    [InlineData(Mount.FlushPlate, 6.0206)]
    [InlineData(Mount.InvertedPlate, 6.0206)]
    [InlineData(Mount.GroundStand, 3.0103)]
    [InlineData(Mount.Pole, 0)]
    public void Nothing_but_the_round_offsets_is_taken_off(Mount mount, double db) => Assert.Equal(db, mount.RaisesDb, 5e-5);

    [Theory]
    [InlineData(true, true, MountAgreement.BothServe)]
    [InlineData(true, false, MountAgreement.ModelAlone)]
    [InlineData(false, true, MountAgreement.PracticeAlone)]
    [InlineData(false, false, MountAgreement.NeitherServes)]
    [InlineData(true, null, MountAgreement.PracticeSilent)]
    [InlineData(false, null, MountAgreement.PracticeSilent)]
    public void One_function_compares(bool model, bool? practice, MountAgreement agreement) =>
        Assert.Equal(agreement, MountAgainstPractice.Of(model, practice));

    [Theory]
    // 7 mm keep doubling within 1 dB up to 3641.84 Hz (hand algebra, see SetupComparisonTests).
    [InlineData(Mount.InvertedPlate, 0.007, SourceClass.Propeller, 50, 3600, MountAgreement.BothServe, "up to 3642 Hz")]
    [InlineData(Mount.InvertedPlate, 0.007, SourceClass.Jet, 50, 10_000, MountAgreement.PracticeAlone, "above 3642 Hz are too low")]
    [InlineData(Mount.InvertedPlate, 0.007, SourceClass.SmallMultirotor, 100, 20_000, MountAgreement.NeitherServes, "above 10 kHz")]
    [InlineData(Mount.InvertedPlate, 0.007, SourceClass.SmallMultirotor, 100, 3000, MountAgreement.ModelAlone, "ends at 3000 Hz")]
    [InlineData(Mount.InvertedPlate, 0.007, SourceClass.Other, 100, 3000, MountAgreement.PracticeSilent, "names jets")]
    // 1.2 m average from 950.9 Hz on; the first dip is at 70.9 Hz.
    [InlineData(Mount.GroundStand, 1.2, SourceClass.Jet, 50, 10_000, MountAgreement.PracticeAlone, "the first at 70.9 Hz")]
    [InlineData(Mount.GroundStand, 1.2, SourceClass.Jet, 1000, 10_000, MountAgreement.BothServe, "from 950.9 Hz on")]
    [InlineData(Mount.GroundStand, 1.2, SourceClass.Propeller, 1000, 10_000, MountAgreement.ModelAlone, "a tone can lie in a dip")]
    [InlineData(Mount.GroundStand, 1.2, SourceClass.Propeller, 50, 10_000, MountAgreement.NeitherServes, "does not take it")]
    // 20 m further: 58.8 ms later at 340.294 m/s; sqrt(10^0.1 - 1) = 0.51 at most.
    [InlineData(Mount.Pole, 10, SourceClass.Jet, 50, 10_000, MountAgreement.PracticeAlone, "59 ms late")]
    [InlineData(Mount.Pole, 10, SourceClass.Jet, 50, 10_000, MountAgreement.PracticeAlone, "may return 0.51 at most")]
    [InlineData(Mount.FlushPlate, 0, SourceClass.SmallMultirotor, 100, 20_000, MountAgreement.BothServe, "up to 20000 Hz")]
    public void Where_both_part_it_says_why(
        Mount mount, double heightM, SourceClass source, double from, double to, MountAgreement agreement, string says)
    {
        var answer = MountAnswer.Of(new(mount, heightM, source, from, to));

        Assert.Equal(agreement, answer.Agreement);
        Assert.Contains(says, answer.Why, StringComparison.Ordinal);
        // What is practice alone is never told without saying so.
        Assert.Equal(source != SourceClass.Other, answer.Why.Contains(MountPractice.Certainty, StringComparison.Ordinal));
    }

    // The model knows no sources: of one band it says the same whatever flies, and another tolerance changes nothing of practice.
    [Fact]
    public void Neither_follows_from_the_other()
    {
        foreach (var mount in Enum.GetValues<Mount>())
        {
            var answers = Enum.GetValues<SourceClass>().Select(s => MountAnswer.Of(new(mount, mount.UsualHeightM, s, 50, 10_000))).ToList();
            Assert.Single(answers.Select(a => (a.FromHz, a.ToHz, a.ModelHolds)).Distinct());
            Assert.All(answers, a => Assert.Equal(
                a.PracticeTakes, MountAnswer.Of(a.Question with { ToleranceDb = 20, ElevationDeg = 10 }).PracticeTakes));
        }
    }
}
