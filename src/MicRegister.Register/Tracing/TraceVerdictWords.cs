namespace MicRegister.Register.Tracing;

/// <summary>Words for verdicts of traces, in one place for all who read them; written so that they can stand within a sentence.</summary>
public static class TraceVerdictWords
{
    extension(TraceReason reason)
    {
        /// <summary>The question that a reason answers, with its mark; empty where it answers none.</summary>
        public string Asked => TraceQuestions.TitleOf(reason.Question) ?? "";
    }

    extension(TraceVerdict verdict)
    {
        /// <summary>Verdict of a trace.</summary>
        public string InWords => verdict switch
        {
            TraceVerdict.Valid => "valid",
            TraceVerdict.Doubtful => "doubtful",
            TraceVerdict.Undecided => "undecided",
            TraceVerdict.NotValid => "not valid",
            _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
        };
    }
}
