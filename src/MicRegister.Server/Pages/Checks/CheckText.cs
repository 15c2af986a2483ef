namespace MicRegister.Server.Pages.Checks;

/// <summary>Verdicts of checks for people.</summary>
internal static class CheckText
{
    /// <summary>Shape, word and class of a verdict on a check.</summary>
    public static (string Shape, string Class) Verdict(string word) => word switch
    {
        "accept" => ("●", "ready"),
        "reject" => ("■", "not-ready"),
        "undecidable" => ("◇", "undecided"),
        _ => ("○", "note"),
    };
}
