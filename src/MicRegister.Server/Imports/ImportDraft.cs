using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;

namespace MicRegister.Server.Imports;

/// <summary>Files that somebody is about to take over, and what was said of them so far. Nothing of it is stored.</summary>
public sealed class ImportDraft
{
    /// <summary>How the name of a file with a legend ends; before it stands the name of the file that it is of.</summary>
    public const string LegendEnd = ".mapping";

    private readonly List<DraftFile> _files = [];
    private readonly Dictionary<string, string> _legends = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateOnly?> _asOf = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (KeptLegend Kept, string Before)> _used = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _names = new(StringComparer.Ordinal);

    /// <summary>The files, in the order in which they were added.</summary>
    public IReadOnlyList<DraftFile> Files => _files;

    /// <summary>Names of files with a legend whose file is not here.</summary>
    public IEnumerable<string> LoneLegends =>
        _legends.Keys.Where(k => _files.TrueForAll(f => Origin(f.Name) != k)).Select(k => k + LegendEnd);

    /// <summary>Adds a file, in the place of one of the same name; a legend goes to the file that it is of.</summary>
    public void Add(string name, byte[] content)
    {
        if (Path.GetExtension(name) == LegendEnd)
        {
            _legends[Path.GetFileNameWithoutExtension(name)] = Encoding.UTF8.GetString(content).TrimStart('\uFEFF');
            return;
        }
        var at = _files.FindIndex(f => f.Name == name);
        if (at >= 0) _files[at] = new(name, content);
        else _files.Add(new(name, content));
    }

    /// <summary>Adds mended rows of a file.</summary>
    public void AddMended(string name, string text)
    {
        var number = _files.Count(f => f.Name.StartsWith(name, StringComparison.Ordinal));
        _files.Add(new($"{name}.mend-{number}.csv", Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>Takes a file out, with its mended rows and what was said of it.</summary>
    public void Remove(string name)
    {
        _files.RemoveAll(f => f.Name == name || (Origin(f.Name) == name && f.Name != name));
        if (_files.Exists(f => Origin(f.Name) == Origin(name))) return;
        _legends.Remove(Origin(name));
        _asOf.Remove(Origin(name));
        _used.Remove(Origin(name));
        _names.Remove(Origin(name));
    }

    /// <summary>Takes out a legend whose file is not here.</summary>
    public void RemoveLegend(string name) => _legends.Remove(Path.GetFileNameWithoutExtension(name));

    public void Clear()
    {
        _files.Clear();
        _legends.Clear();
        _asOf.Clear();
        _used.Clear();
        _names.Clear();
    }

    /// <summary>The text of a file's legend.</summary>
    public string Legend(string file) => _legends.GetValueOrDefault(Origin(file), "");

    /// <summary>Writes a file's legend anew.</summary>
    public void Write(string file, string? legend) => _legends[Origin(file)] = legend ?? "";

    /// <summary>Adds a rule to a file's legend, in the place of what it said of the same thing.</summary>
    public void Say(string file, string rule) => Write(file, LegendLines.With(Legend(file), rule));

    /// <summary>Takes a rule out of a file's legend.</summary>
    public void TakeBack(string file, string? rule) => Write(file, LegendLines.Without(Legend(file), rule));

    /// <summary>Name that a file's legend is kept by: given by a person, that of the kept one that it began with, or the file's.</summary>
    public string LegendName(string file) => _names.GetValueOrDefault(Origin(file)) is { Length: > 0 } given ? given
        : _used.TryGetValue(Origin(file), out var used) ? used.Kept.Legend.Name : Origin(file);

    /// <summary>Gives a file's legend a name.</summary>
    public void Name(string file, string? name) => _names[Origin(file)] = name?.Trim() ?? "";

    /// <summary>The kept legend that is used for a file; null where none is.</summary>
    public KeptLegend? Used(string file) => _used.TryGetValue(Origin(file), out var used) ? used.Kept : null;

    /// <summary>The kept legend that a file could use: one of the same shape, where nothing was said of it yet.</summary>
    public KeptLegend? Offer(Register.Register register, string file) =>
        LegendLines.Rules(Legend(file)).Count > 0 || _files.Find(f => f.Name == file) is not { } own || Origin(file) != file
            ? null : KeptLegend.Fitting(register, new MemoryStream(own.Content, writable: false), file);

    /// <summary>Uses a kept legend for a file.</summary>
    public void Use(string file, KeptLegend kept)
    {
        _used[Origin(file)] = (kept, Legend(file));
        Write(file, LegendLines.ForNext(kept.Legend.Text));
    }

    /// <summary>Puts a file's legend back to what it was before a kept one was used.</summary>
    public void UseNoMore(string file)
    {
        if (_used.Remove(Origin(file), out var used)) Write(file, used.Before);
    }

    /// <summary>Day as of which a file speaks, as a person stated it.</summary>
    public DateOnly? AsOf(string file) => _asOf.GetValueOrDefault(Origin(file));

    public void Speaks(string file, DateOnly? day) => _asOf[Origin(file)] = day;

    /// <summary>Works out what the files would do. What was said meanwhile is not taken: the draft is copied first.</summary>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal Func<Importing> Working(
        Register.Register register, DateOnly today, Func<int, DateOnly?> recorded, IProgress<ImportProgress>? progress,
        CancellationToken cancel)
    {
        var files = _files.Select(f => (f.Name, f.Content, Legend: Legend(f.Name), Kept: LegendName(f.Name), AsOf: AsOf(f.Name))).ToList();
        return () =>
        {
            var importing = new Importing(register, today, recorded);
            var before = new ImportProgress(0, 0);
            foreach (var (name, content, legend, kept, asOf) in files)
            {
                var last = new ImportProgress(0, 0);
                var of = before;
                var told = new Told(p => progress?.Report(new(of.Done + (last = p).Done, of.Total + p.Total)));
                try
                {
                    var rules = ImportMapping.Read(new StringReader(legend), Origin(name) + LegendEnd);
                    importing.Take(new MemoryStream(content, writable: false), name, rules with { AsOf = asOf ?? rules.AsOf }, told, cancel,
                        legend: (kept, legend));
                }
                catch (SheetException problem)
                {
                    importing.Unreadable.Add((name, problem.Message));
                }
                before = new(of.Done + last.Total, of.Total + last.Total);
            }
            importing.Finish(null, cancel);
            return importing;
        };
    }

    /// <summary>Name of the file that mended rows came from; any other name as it is.</summary>
    public static string Origin(string name) => name.Split(".mend-")[0];

    // At once and in order, unlike Progress<T>.
    private sealed class Told(Action<ImportProgress> tell) : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value) => tell(value);
    }
}

/// <summary>A file that somebody is about to take over.</summary>
public sealed record DraftFile(string Name, byte[] Content);
