using System.Text;

namespace MicRegister.Server.Imports;

/// <summary>Rows of a table that were put aside, as a table that can be mended and imported.</summary>
/// <param name="File">Which of the files it is from, counted from 0.</param>
/// <param name="Table">Which of the file's tables, counted from 0.</param>
/// <param name="Text">The table.</param>
public sealed record MendTable(int File, int Table, string Text)
{
    /// <summary>Writes them, each with the mapping that it was read by.</summary>
    /// <param name="tables">The tables.</param>
    /// <param name="files">The files that they are from.</param>
    /// <param name="folder">Where to.</param>
    /// <param name="over">Whether files of an earlier run are written over; otherwise a number is added.</param>
    /// <returns>The paths that were written.</returns>
    internal static IReadOnlyList<string> Write(
        IReadOnlyList<MendTable> tables, IReadOnlyList<FileAtHand> files, string folder, bool over = false)
    {
        var written = new List<string>();
        foreach (var table in tables)
        {
            var file = files[table.File];
            Directory.CreateDirectory(folder);
            var number = table.Table > 0 ? FormattableString.Invariant($".{table.Table + 1}") : "";
            var path = Free(folder, file.Asked.Name + number, over);
            System.IO.File.WriteAllText(path, table.Text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
            if (file.MappingPath is { } mapping) System.IO.File.Copy(mapping, path + ImportDraft.LegendEnd, overwrite: true);
            written.Add(path);
        }
        return written;
    }

    private static string Free(string folder, string name, bool over)
    {
        var path = Path.Combine(folder, name + ".mend.csv");
        for (var n = 2; !over && System.IO.File.Exists(path); n++)
            path = Path.Combine(folder, FormattableString.Invariant($"{name}.mend-{n}.csv"));
        return path;
    }
}
