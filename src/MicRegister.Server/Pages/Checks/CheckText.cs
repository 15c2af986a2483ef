using System.Globalization;

namespace MicRegister.Server.Pages.Checks;

/// <summary>Numbers and verdicts of checks for people.</summary>
internal static class CheckText
{
    public static string N(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "–";

    public static string Db(double? db) => N(db, "+0.000;−0.000;0.000");

    /// <summary>Shape, word and class of a verdict on a check.</summary>
    public static (string Shape, string Class) Verdict(string word) => word switch
    {
        "accept" => ("●", "ready"),
        "reject" => ("■", "not-ready"),
        "undecidable" => ("◇", "undecided"),
        _ => ("○", "note"),
    };
}
