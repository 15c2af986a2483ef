namespace MicRegister.Register.Readiness;

/// <summary>
/// Words for verdicts and findings, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class ReadinessWords
{
    extension(ReadinessVerdict verdict)
    {
        /// <summary>Verdict of a device, a station or a campaign.</summary>
        public string InWords => verdict switch
        {
            ReadinessVerdict.Ready => "ready",
            ReadinessVerdict.AtRisk => "at risk",
            ReadinessVerdict.NotReady => "not ready",
            ReadinessVerdict.Undecided => "undecided",
            _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
        };
    }

    extension(Gravity gravity)
    {
        /// <summary>How grave a finding is.</summary>
        public string InWords => gravity switch
        {
            Gravity.Note => "note",
            Gravity.Risks => "risks",
            Gravity.Stops => "stops",
            _ => throw new ArgumentOutOfRangeException(nameof(gravity), gravity, null),
        };
    }

    extension(Clearing clearing)
    {
        /// <summary>What clears a finding, as an act.</summary>
        public string InWords => clearing switch
        {
            Clearing.Calibrate => "calibrate",
            Clearing.Swap => "swap",
            Clearing.Inspect => "inspect",
            Clearing.Decide => "decide",
            Clearing.Enter => "enter what is missing",
            Clearing.Plan => "change the plan",
            _ => throw new ArgumentOutOfRangeException(nameof(clearing), clearing, null),
        };
    }
}
