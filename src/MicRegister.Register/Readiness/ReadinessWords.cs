namespace MicRegister.Register.Readiness;

/// <summary>
/// Words for verdicts and findings, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class ReadinessWords
{
    /// <summary>How spares count, in sentences.</summary>
    public const string HowSparesCount =
        "A spare stands in for its own kind alone, a microphone for one of the same response type and size, and only with its own probability "
        + "of holding through the last day. What is out of service, lost, away, placed at a station or not sound itself is no spare. "
        + "What lies in the plan, the mount or a pair of parts no spare makes up for. Whether its plugs fit is not looked at.";

    /// <summary>What counts of a campaign that is over, in sentences.</summary>
    public static string Over(ReadinessReport report)
    {
        var open = report.Findings.Count(f => f.Gravity > Gravity.Note);
        return $"It is over since {report.LastDay.AddDays(1):yyyy-MM-dd}; its evidence counts. "
            + (open == 0 ? "No check of it is open."
                : FormattableString.Invariant($"{open} {(open == 1 ? "finding is" : "findings are")} open in it."));
    }

    /// <summary>What a spare is worth, as a sentence that its name begins.</summary>
    public static string Counts(SpareReadiness spare) => spare.Why is { } why
        ? $"is not counted: it {why}."
        : $"holds with probability {Metrology.Quantities.QuantityText.Number(spare.Probability, 3)}; "
            + FormattableString.Invariant($"it could stand in at {spare.Stations} {(spare.Stations == 1 ? "station" : "stations")}.");

    /// <summary>How many spares count, by kind, such as "3 fit spares (2 microphones, 1 preamplifier)".</summary>
    public static string FitSpares(IReadOnlyList<SpareReadiness> spares)
    {
        var fit = spares.Where(s => s.Why is null).ToList();
        var kinds = fit.GroupBy(s => s.Kind, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => $"{g.Count()} {Devices.DeviceKind.Find(g.Key)?.Label.ToLowerInvariant() ?? g.Key}{(g.Count() > 1 ? "s" : "")}");
        return fit.Count == 0 ? "no fit spare" : $"{fit.Count} fit {(fit.Count == 1 ? "spare" : "spares")} ({string.Join(", ", kinds)})";
    }

    extension(ReadinessVerdict verdict)
    {
        /// <summary>Verdict of a device, a station or a campaign.</summary>
        public string InWords => verdict switch
        {
            ReadinessVerdict.Ready => "ready",
            ReadinessVerdict.AtRisk => "at risk",
            ReadinessVerdict.NotReady => "not ready",
            ReadinessVerdict.Undecided => "undecided",
            ReadinessVerdict.Over => "over",
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
