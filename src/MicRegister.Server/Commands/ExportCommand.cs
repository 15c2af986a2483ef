using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using MicRegister.Documents.Exports;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Writes a register as tables that an import takes back, and says what they do not hold; works while a server runs.</summary>
internal static class ExportCommand
{
    private const string WorkbookName = "register.xlsx";

    public static Command Make()
    {
        var (data, json, today) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.Today());
        var folder = new Argument<string>("FOLDER") { Description = "Where the files go; it is made where it is missing." };
        var format = new Option<string>("--format")
        { Description = "csv: a file a table; xlsx: one workbook.", DefaultValueFactory = _ => "csv" };
        var replace = new Option<bool>("--replace") { Description = "Write over the files of an earlier export." };
        var command = new Command("export", "Write the register as tables that an import takes back, and name what they do not hold.")
        { folder, data, format, replace, today, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(folder)!, parsed.GetValue(format)!, parsed.GetValue(replace),
            CommonOptions.Day(parsed.GetValue(today), TimeProvider.System), parsed.GetValue(json), cancel))));
        return command;
    }

    /// <summary>The file of a table: numbered, so that files in the order of their names come back in the order that they need.</summary>
    internal static string FileOf(string table) =>
        string.Create(CultureInfo.InvariantCulture, $"{FleetTables.All.ToList().IndexOf(table) + 1}-{table}.csv");

    private static int Run(string data, string folder, string format, bool replaces, DateOnly today, bool asJson, CancellationToken cancel)
    {
        if (format is not ("csv" or "xlsx")) throw new BadUseException($"--format {format}: allowed are csv and xlsx.");
        using var store = CommandStore.Read(data);
        var provenance = Provenance.Of(store.Head, store.Register);
        var tables = FleetTables.Of(store.Register, today, provenance, cancel: cancel);
        var files = format == "xlsx" ? Workbook(tables, provenance) : tables.Tables.SelectMany(t => Files(t.Name, t.Table)).ToList();
        Write(folder, files, replaces);
        Tell(folder, tables, files, asJson);
        return CommandExit.Good;
    }

    private static List<(string Name, byte[] Content)> Workbook(
        FleetTables tables, IReadOnlyList<(string Name, string Value)> provenance) =>
        [(WorkbookName, Bytes(to => XlsxExport.Write(tables.Tables, "Register", tables.Left.InWords, provenance, to)))];

    private static IEnumerable<(string Name, byte[] Content)> Files(string name, ExportTable table)
    {
        var file = FileOf(name);
        yield return (file, Bytes(to => CsvExport.Write(table, to)));
        yield return (file + CsvMetadata.Suffix, Bytes(to => CsvMetadata.Write(table, file, to)));
    }

    private static byte[] Bytes(Action<Stream> write)
    {
        using var content = new MemoryStream();
        write(content);
        return content.ToArray();
    }

    // All are written beside first and named last: nobody finds half a file, nor one half new and half old where the disk is full.
    private static void Write(string folder, IReadOnlyList<(string Name, byte[] Content)> files, bool replaces)
    {
        List<string> own = [WorkbookName, .. FleetTables.All.Select(FileOf).SelectMany(f => new[] { f, f + CsvMetadata.Suffix })];
        var there = own.Where(n => File.Exists(Path.Combine(folder, n))).ToList();
        if (there.Count > 0 && !replaces)
            throw new BadUseException($"{folder} holds {string.Join(", ", there)} already. Nothing was written; --replace writes over it.");
        Directory.CreateDirectory(folder);
        var parts = files.Select(f => (Path.Combine(folder, f.Name), f.Content))
            .Select(f => (Part: f.Item1 + ".part", Path: f.Item1, f.Content)).ToList();
        try
        {
            foreach (var (part, _, content) in parts) File.WriteAllBytes(part, content);
        }
        catch
        {
            foreach (var (part, _, _) in parts) File.Delete(part);
            throw;
        }
        foreach (var (part, path, _) in parts) File.Move(part, path, overwrite: replaces);
        // What an earlier export wrote and this one has not would come back with it.
        foreach (var name in there.Except(files.Select(f => f.Name))) File.Delete(Path.Combine(folder, name));
    }

    private static void Tell(string folder, FleetTables tables, IReadOnlyList<(string Name, byte[] Content)> files, bool asJson)
    {
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(
                new
                {
                    files = files.Select(f => Path.Combine(folder, f.Name)),
                    rows = tables.Tables.ToDictionary(t => t.Name, t => t.Table.Rows.Count),
                    left = tables.Left.Counts,
                },
                CommandJson.Indented));
            return;
        }
        Console.WriteLine($"Written to {folder}: {string.Join(", ", files.Select(f => f.Name))}");
        var rows = tables.Tables.Select(t => FormattableString.Invariant($"{t.Table.Rows.Count} {t.Name}"));
        Console.WriteLine("Rows: " + string.Join(", ", rows));
        Console.WriteLine(tables.Left.Counts.Count == 0
            ? "Nothing stays behind."
            : "These stay behind; the register as a whole is backed up by copying its folder:");
        foreach (var (what, count) in tables.Left.Counts) Console.WriteLine(FormattableString.Invariant($"  {count} {what}"));
    }
}
