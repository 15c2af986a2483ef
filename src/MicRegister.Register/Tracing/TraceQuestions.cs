using static MicRegister.Register.Tracing.CertificateQuestions;
using static MicRegister.Register.Tracing.CheckClockQuestions;
using static MicRegister.Register.Tracing.CheckQuestions;
using static MicRegister.Register.Tracing.DoubtQuestions;
using static MicRegister.Register.Tracing.InPlaceQuestions;
using static MicRegister.Register.Tracing.PlacementQuestions;
using static MicRegister.Register.Tracing.RecordingQuestions;
using static MicRegister.Register.Tracing.SensitivityQuestions;
using static MicRegister.Register.Tracing.UnreadQuestions;
using static MicRegister.Register.Tracing.WeatherQuestions;

namespace MicRegister.Register.Tracing;

/// <summary>Every question that a trace asks, in the order in which people read the answers of one weight.</summary>
internal static class TraceQuestions
{
    public static IReadOnlyList<TraceQuestion> All { get; } =
    [
        new("nothing-placed", "Did anything stand there?", NothingPlaced) { IsOfNothing = true },
        new("part-of-event", "Did it stand there for the whole event?", PartOfEvent),
        new("unknown-label", "Is it known of each label what it is on?", UnknownLabel),
        new("not-registered", "Is each device in the register?", NotRegistered),
        new("no-microphone", "Was a microphone placed?", NoMicrophone),
        new("no-channel", "Was a recorder channel placed with it?", NoChannel),
        new("missing-part", "Were all parts of a chain placed, where chains were planned?", MissingPart),
        new("two-places", "Did a part stand elsewhere at the same time?", Contradiction),
        new("newer-facts", "Can this version read all that was said of devices, campaign and profile?", NewerFacts),
        new("unread-steps", "Can this version read all that was said of chain and event in the field?", UnreadSteps),
        new("other-microphone", "Does nothing said in its place name another microphone?", OtherMicrophone),
        new("recorded", "Do the stated files hold the event, at times that are known?", Recorded),
        new("not-flush", "Was the microphone flush with its plate?", NotFlush),
        new("weather-limits", "Was the weather as the profile asks?", WeatherLimits),
        new("check-before-missing", "Was the chain checked before it?", MissingBefore),
        new("check-before-judged", "Does the check before hold by the profile?", JudgedBefore),
        new("check-before-range", "Was the check before made at the range that was set?", RangeBefore),
        new("check-after-missing", "Was the chain checked after it?", MissingAfter),
        new("check-after-judged", "Does the check after hold by the profile, and against the one before?", JudgedAfter),
        new("check-after-range", "Was the check after made at the range that was set?", RangeAfter),
        new("check-clock", "Do checks lie as near by the clock as the profile asks?", TooFar),
        new("check-variation", "Do all checks of its day agree as the profile asks?", MovedOverDay),
        new("check-air", "Was the calibrator's level worked out for the air of the day, where the profile asks for it?", AirOfDay),
        new("swapped-since-check", "Was a part swapped since the check before?", SwappedSinceCheck),
        new("work-between-checks", "Was a device worked on or damaged between the checks?", WorkBetweenChecks),
        new("no-certificate", "Does each level rest on certificates, down to a laboratory?", NoCertificate),
        new("check-fit", "Does what each check was made with fit the microphone?", KitFits),
        new("check-figures", "Do the figures of each check follow from its readings and certificates?", Figures),
        new("check-superseded", "Were the checks worked out from the certificates in force?", Superseded),
        .. StandingQuestions.All,
        new("in-place-missing", "Do checks of other days have a comparison in place between them?", MissingInPlace),
        new("in-place-moved", "Did the chain stay as it was, compared in place?", MovedInPlace),
        new("doubt", "Does a doubt reach a device, unrescued and uncleared?", Doubted),
        new("certificates-for-checks", "Does a check tell the sensitivity, as the campaign's rule asks?", CertificatesForChecks),
        new("no-certificate-after", "Is there a certificate after it, as the campaign's rule asks?", NoCertificateAfter),
        new("no-sensitivity", "Is any sensitivity known?", NoSensitivity),
    ];

    /// <summary>What a question asks, by its key; null where no question has it.</summary>
    public static string? TitleOf(string key) => All.FirstOrDefault(q => q.Key == key)?.Title;

    /// <summary>The reasons that all questions give, the gravest first.</summary>
    public static IReadOnlyList<TraceReason> Ask(TracedChain chain)
    {
        var reasons = new List<TraceReason>();
        foreach (var question in All)
        {
            if (question.IsOfNothing != chain.Placement is null) continue;
            foreach (var reason in question.Ask(chain)) reasons.Add(reason);
        }
        return reasons.Count < 2 ? reasons : [.. reasons.OrderByDescending(r => r.Weight)];
    }
}

/// <param name="Key">Stable key of the question.</param>
/// <param name="Title">What it asks.</param>
/// <param name="Work">A pure function that gives what stands against the result.</param>
internal sealed record TraceQuestion(string Key, string Title, Func<TracedChain, IEnumerable<TraceReason>> Work)
{
    /// <summary>Asks: what stands against the result, each with the key of this question.</summary>
    public IEnumerable<TraceReason> Ask(TracedChain chain) => Work(chain).Select(r => r with { Question = Key });

    /// <summary>Whether it is asked of a station where nothing stood; all others are asked of what stood there.</summary>
    public bool IsOfNothing { get; init; }
}
