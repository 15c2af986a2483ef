using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>A person took the rows of a file into the register. Subject: the register.</summary>
/// <param name="File">Name of the file, without its folder.</param>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal.</param>
/// <param name="Rows">Rows of the file that stood for something.</param>
/// <param name="Facts">How many facts were new.</param>
/// <param name="Digest">Set digest of those new facts.</param>
public sealed record ImportAccepted(string File, string Sha256, int Rows, int Facts, string Digest) : FactBody
{
    /// <summary>Day as of which the file speaks; null where nobody said and it holds no date, or an earlier release took it over.</summary>
    public DateOnly? AsOf { get; init; }

    /// <summary>
    /// What a person said of the file that its headers do not; null where nobody said anything, or an earlier release took it over.
    /// </summary>
    public ImportLegend? Legend { get; init; }
}

/// <summary>What a person said of a file that its headers do not, kept for the next file of the same shape.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Text">Its rules, a line each, in the language of legends of the release that took the file over.</param>
/// <param name="Shape">The shapes of the file's tables, by which a file of the same make is known.</param>
public sealed record ImportLegend(string Name, string Text, IReadOnlyList<string> Shape);
