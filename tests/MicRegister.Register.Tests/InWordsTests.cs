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
        Told<Mount>(InWords.Of);
        Told<DeviceStatus>(InWords.Of);
        Told<SourceClass>(InWords.Of);
        Told<CheckMoment>(InWords.Of);
        Told<CheckMoment>(InWords.InFull);
        Told<KitPurpose>(InWords.Of);
        Told<ServiceKind>(InWords.Of);
        Told<StationState>(InWords.Of);
        Told<EventKind>(InWords.Of);
        Told<TimeScale>(InWords.Of);
        Told<ReadinessVerdict>(InWords.Of);
        Told<Gravity>(InWords.Of);
        Told<Clearing>(InWords.Of);
        Told<TraceVerdict>(InWords.Of);
        Told<SensitivityRule>(InWords.Of);
    }

    [Fact]
    public void What_is_no_choice_has_no_words() => Assert.Throws<ArgumentOutOfRangeException>(() => InWords.Of((Mount)99));

    private static void Told<T>(Func<T, string> words)
        where T : struct, Enum
    {
        var all = Enum.GetValues<T>().Select(words).ToList();
        Assert.All(all, w => Assert.Matches("^[A-Za-z][A-Za-z -]+$", w));
        Assert.Equal(all.Count, all.Distinct().Count());
    }
}
