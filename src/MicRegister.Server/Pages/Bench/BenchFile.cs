using MicRegister.Documents.DigitalCertificates;
using MicRegister.Server.Api;

namespace MicRegister.Server.Pages.Bench;

/// <summary>What a dropped file can be for a result.</summary>
public enum BenchFileSort
{
    /// <summary>The certificate, as a print or a picture of it.</summary>
    Certificate,

    /// <summary>The certificate, as a digital one that programs read.</summary>
    Digital,

    /// <summary>A response curve, as a text table.</summary>
    Curve,
}

/// <summary>A file that was dropped at the bench. It is kept by the register as an attachment already; no fact names it yet.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="Sha">SHA-256 of what it holds.</param>
/// <param name="Sort">What it is; null where its name and its ending say different things, which is asked.</param>
public sealed record BenchFile(string Name, long Bytes, string Sha, BenchFileSort? Sort)
{
    private const int Looked = 4096;

    private static readonly string[] Tables = [".csv", ".txt", ".dat", ".tsv"];

    // Beginnings of words, in the languages that files of the house are named in.
    private static readonly string[] OfCertificates = ["cert", "zert", "schein", "kalibrierschein", "zeugnis"];
    private static readonly string[] OfCurves = ["curve", "response", "kurve", "frequenzgang", "frf"];

    /// <summary>Whether it takes the place of the certificate.</summary>
    public bool IsCertificate => Sort is BenchFileSort.Certificate or BenchFileSort.Digital;

    /// <summary>What a file is, by what it holds and how its name ends and speaks.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="content">What it holds.</param>
    /// <returns>Null where that is not clear.</returns>
    /// <exception cref="FormatException">It can be neither; the message says what is taken.</exception>
    public static BenchFileSort? SortOf(string name, ReadOnlySpan<byte> content)
    {
        if (AttachmentType.Of(content) is not { } type)
            throw new FormatException($"{name} is no file that can be attached: {AttachmentType.Allowed} are taken.");
        var (saysCertificate, saysCurve) = (Speaks(name, OfCertificates), Speaks(name, OfCurves));
        if (type != ".txt") return saysCurve && !saysCertificate ? null : BenchFileSort.Certificate;
        var ending = Path.GetExtension(name).ToLowerInvariant();
        if (ending == ".xml") return IsDigital(content) ? BenchFileSort.Digital : null;
        return Tables.Contains(ending) && !saysCertificate ? BenchFileSort.Curve : null;
    }

    /// <summary>Why it has to be asked what the file is; null where that is clear.</summary>
    public string? WhyUnclear => Sort is not null ? null
        : Path.GetExtension(Name).Equals(".xml", StringComparison.OrdinalIgnoreCase) ? "it is XML, but no digital calibration certificate"
        : Tables.Contains(Path.GetExtension(Name).ToLowerInvariant()) ? "its ending is that of a table, its name speaks of a certificate"
        : Speaks(Name, OfCurves) ? "its name speaks of a curve, but curves are read from text tables alone"
        : $"its ending is none of {string.Join(", ", Tables)}, .xml, .pdf";

    private static bool IsDigital(ReadOnlySpan<byte> content) =>
        content[..Math.Min(Looked, content.Length)].IndexOf("digitalCalibrationCertificate"u8) >= 0;

    private static bool Speaks(string name, string[] words) => Path.GetFileNameWithoutExtension(name).ToLowerInvariant()
        .Split([' ', '-', '_', '.', '(', ')', '+'], StringSplitOptions.RemoveEmptyEntries)
        .Any(piece => words.Any(w => piece.StartsWith(w, StringComparison.Ordinal)));

    /// <summary>Reads it as a digital certificate; null where it is none, or is not here.</summary>
    /// <param name="open">Opens an attachment by its SHA-256.</param>
    public DigitalCertificate? ReadDigital(Func<string, Stream?> open)
    {
        if (Sort != BenchFileSort.Digital) return null;
        using var content = open(Sha);
        try
        {
            return content is null ? null : DigitalCertificateFile.Read(content, Name);
        }
        catch (FormatException)
        {
            return null; // it is kept as it is; what cannot be read of it is told where it was dropped
        }
    }
}

/// <summary>A file that waits for a person to say where it belongs.</summary>
/// <param name="File">The file.</param>
/// <param name="Why">Why that is not clear.</param>
/// <param name="Devices">Ids of the devices that its name or it itself speaks of.</param>
public sealed record WaitingFile(BenchFile File, string Why, IReadOnlyList<string> Devices)
{
    /// <summary>Number of the line that it was dropped on, from 1; null where it was dropped on the sheet.</summary>
    public int? DroppedOn { get; init; }
}
