using System.Security.Cryptography;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Imports;

/// <summary>Tables from the site as they come in files: surveys of stations, and what a weather logger read.</summary>
internal static class SiteFiles
{
    /// <summary>Greatest size of a file, in bytes: 100,000 readings and room to spare.</summary>
    public const int MostBytes = 32 << 20;

    /// <summary>Reads surveys.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="method">How it was surveyed, for rows that do not say.</param>
    /// <exception cref="SheetException">It is no table.</exception>
    public static SurveyTable Surveys(Stream content, string name, string? method) => SurveyTable.Read(Cells(content, name), method);

    /// <summary>Reads what a weather logger read.</summary>
    /// <param name="content">The file.</param>
    /// <param name="name">Its name, kept with the readings.</param>
    /// <param name="zone">utc or site; null where the file itself says.</param>
    /// <param name="offsets">The site's offsets from UTC.</param>
    /// <param name="remark">Which instrument, where and how high it stood.</param>
    /// <returns>What is to be stated, where no row is bad.</returns>
    /// <exception cref="SheetException">It is no table, or the zone is none.</exception>
    public static (WeatherLogged Logged, IReadOnlyList<BadFieldRow> Bad) Weather(
        MemoryStream content, string name, string? zone, IReadOnlyList<ZoneOffset> offsets, string? remark)
    {
        bool? isUtc = zone switch
        {
            null or "" => null,
            "utc" => true,
            "site" => false,
            _ => throw new SheetException($"Zone '{zone}': allowed are utc and site."),
        };
        var sha = Convert.ToHexStringLower(SHA256.HashData(content.GetBuffer().AsSpan(0, (int)content.Length)));
        var table = WeatherTable.Read(Cells(content, name), isUtc, offsets);
        return (new(name, sha, table.Good, string.IsNullOrWhiteSpace(remark) ? null : remark.Trim()), table.Bad);
    }

    /// <summary>What is wrong, the first rows of it, in sentences.</summary>
    public static string InWords(IReadOnlyList<BadFieldRow> bad) =>
        string.Join(" ", bad.Take(5).Select(b => b.InWords)) + (bad.Count > 5 ? $" And {bad.Count - 5} more." : "");

    private static List<IReadOnlyList<string>> Cells(Stream content, string name)
    {
        content.Position = 0;
        return [.. SheetFile.Open(content, name, SheetLimits.Usual).SelectMany(s => s.Rows)
            .Select(r => (IReadOnlyList<string>)[.. r.Cells.Select(c => c.Text ?? c.Shown)])];
    }
}
