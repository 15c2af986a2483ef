using MicRegister.Documents.Sheets;

namespace MicRegister.Server.Imports;

/// <summary>A file on this machine's disk that is to be taken over, with the mapping beside it.</summary>
/// <param name="Path">Where it lies.</param>
/// <param name="MappingPath">Where its mapping lies; null where it has none.</param>
/// <param name="Asked">What is handed on of it.</param>
internal sealed record FileAtHand(string Path, string? MappingPath, AskedFile Asked)
{
    /// <summary>Looks at a file. One that cannot be read says so and takes none of the others with it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="mapping">File with its legend; null takes that beside it.</param>
    /// <param name="answers">Rules of a legend beside those of the file.</param>
    public static FileAtHand Find(string path, string? mapping = null, string answers = "")
    {
        var asked = new AskedFile(System.IO.Path.GetFileName(path)) { Answers = answers };
        try
        {
            if (!File.Exists(path)) throw new SheetException($"There is no file {path}.");
            mapping ??= File.Exists(path + ImportDraft.LegendEnd) ? path + ImportDraft.LegendEnd : null;
            if (mapping is not null && !File.Exists(mapping)) throw new SheetException($"There is no file {mapping}.");
            var hand = new FileAtHand(path, mapping, asked);
            hand.Open().Dispose();
            return mapping is null ? hand : hand with
            {
                Asked = asked with { Mapping = File.ReadAllText(mapping), MappingName = System.IO.Path.GetFileName(mapping) },
            };
        }
        catch (Exception e) when (e is SheetException or IOException or UnauthorizedAccessException)
        {
            return new(path, mapping, asked with { Unreadable = e.Message });
        }
    }

    public FileStream Open() => new(Path, FileMode.Open, FileAccess.Read, FileShare.Read);
}
