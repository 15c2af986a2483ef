using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests;

public sealed class InWordsTests
{
    [Fact]
    public void Every_choice_of_the_register_has_words_of_its_own()
    {
        Told<Mount>(x => x.InWords);
        Told<DeviceStatus>(x => x.InWords);
        Told<SourceClass>(x => x.InWords);
        Told<CheckMoment>(x => x.InWords);
        Told<CheckMoment>(x => x.InFull);
        Told<KitPurpose>(x => x.InWords);
        Told<ServiceKind>(x => x.InWords);
        Told<StationState>(x => x.InWords);
        Told<EventKind>(x => x.InWords);
        Told<TimeScale>(x => x.InWords);
        Told<ReadinessVerdict>(x => x.InWords);
        Told<Gravity>(x => x.InWords);
        Told<Clearing>(x => x.InWords);
        Told<TraceVerdict>(x => x.InWords);
        Told<SensitivityRule>(x => x.InWords);
        Told<ClauseChange>(x => x.InWords);
    }

    [Fact]
    public void What_is_no_choice_has_no_words() => Assert.Throws<ArgumentOutOfRangeException>(() => ((Mount)99).InWords);

    private static void Told<T>(Func<T, string> words)
        where T : struct, Enum
    {
        var all = Enum.GetValues<T>().Select(words).ToList();
        Assert.All(all, w => Assert.Matches("^[A-Za-z][A-Za-z -]+$", w));
        Assert.Equal(all.Count, all.Distinct().Count());
    }
}
