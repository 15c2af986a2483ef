using MicRegister.Documents.Import;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Bench;

/// <summary>Results of a bench as they are being entered: a line each, with what all have in common above.</summary>
public sealed class BenchSheet
{
    /// <summary>Most lines at once.</summary>
    public const int MostLines = 500;

    /// <summary>Lines; the last one is always empty.</summary>
    public List<BenchLine> Lines { get; } = [new()];

    public DateOnly Day { get; set; }

    public string? Laboratory { get; set; }

    public string? Method { get; set; }

    public string? Factor { get; set; } = "2";

    /// <summary>U of all lines that state none of their own, in dB unless it is in percent.</summary>
    public string? Expanded { get; set; }

    public bool IsInPercent { get; set; }

    /// <summary>Air of the day, carried to all lines that state none of their own.</summary>
    public string? Pressure { get; set; }

    public string? Temperature { get; set; }

    public string? Humidity { get; set; }

    /// <summary>Files that nobody has said yet where they belong.</summary>
    public List<WaitingFile> Waiting { get; } = [];

    /// <summary>Files of devices that have no line yet, by id of the device.</summary>
    public List<(string Device, BenchFile File)> Offered { get; } = [];

    /// <summary>Lines that can be stored as they stand.</summary>
    public IEnumerable<BenchLine> Good => Lines.Where(l => l.IsGood);

    /// <summary>Whether something would be lost with this sheet.</summary>
    public bool IsUnsaved => Waiting.Count > 0 || Offered.Count > 0 || Lines.Exists(l => l.HoldsSomething);

    /// <summary>How many lines were worked out so far.</summary>
    internal int Worked { get; private set; }

    /// <summary>Works out all lines on a state of the register: it is another one, or what all have in common changed.</summary>
    public void Work(Desk desk, Register.Register register)
    {
        foreach (var line in Lines) WorkOut(desk, register, line);
        LookAcross();
    }

    /// <summary>Works out one line, after a key in it: nothing in it changes what the others say, but that nothing may be said
    /// twice.</summary>
    public void Work(Desk desk, Register.Register register, BenchLine line)
    {
        WorkOut(desk, register, line);
        LookAcross();
    }

    private void WorkOut(Desk desk, Register.Register register, BenchLine line)
    {
        Worked++;
        BenchReading.Work(desk, register, this, line);
    }

    private void LookAcross()
    {
        if (Lines.Count == 0 || !Lines[^1].IsEmpty) Lines.Add(new());
        var first = new Dictionary<(string, DateOnly), int>();
        for (var i = 0; i < Lines.Count; i++)
        {
            var twin = Lines[i].Issued is not null && !first.TryAdd((Lines[i].Device!.Id, Lines[i].IssuedOn), i)
                ? first[(Lines[i].Device!.Id, Lines[i].IssuedOn)] + 1 : (int?)null;
            if (Lines[i].TwinOf == twin) continue;
            Lines[i].TwinOf = twin;
            Lines[i].Version++;
        }
    }

    /// <summary>Puts lines back that were stored, or kept elsewhere, before those that are here.</summary>
    public void PutBack(IEnumerable<BenchLine> lines)
    {
        Lines.RemoveAll(l => l.IsEmpty);
        Lines.InsertRange(0, lines);
    }

    /// <summary>Takes a block from a spreadsheet: with headers, or in the order serial number, result, U, day.</summary>
    /// <returns>What could not be read; empty where all was.</returns>
    public IReadOnlyList<string> Paste(string block)
    {
        var problems = new List<string>();
        var rows = block.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).ToList();
        if (rows.Count == 0) return problems;
        var separator = rows[0].Contains('\t', StringComparison.Ordinal) ? '\t'
            : rows[0].Contains(';', StringComparison.Ordinal) ? ';' : ',';
        string?[] units = [.. rows[0].Split(separator).Select(c => MeasuredText.UnitOfHeader(c.Trim()))];
        Column?[] columns = [.. rows[0].Split(separator).Select(c => Column.ByName(c.Trim()))];
        if (columns.Any(c => c == Column.Serial)) rows.RemoveAt(0);
        else (columns, units) = ([Column.Serial, Column.Value, Column.Uncertainty, Column.Day], new string?[4]);
        Lines.RemoveAll(l => l.IsEmpty);
        foreach (var row in rows)
        {
            if (Lines.Count >= MostLines)
            {
                problems.Add($"At most {MostLines} lines are taken at once; the rest was left out.");
                break;
            }
            var cells = row.Split(separator);
            var line = new BenchLine();
            for (var i = 0; i < Math.Min(cells.Length, columns.Length); i++)
            {
                var text = cells[i].Trim().Trim('"');
                if (text.Length == 0) continue;
                if (columns[i] == Column.Serial) line.Serial = text;
                else if (columns[i] == Column.Value) line.TakeValue(text, units[i]);
                else if (columns[i] == Column.Uncertainty) line.TakeUncertainty(text, units[i]);
                else if (columns[i] == Column.Certificate) line.Number = text;
                else if (columns[i] == Column.Day)
                {
                    if (Documents.Sheets.DateText.TryRead(new(text), null, false, out var day) is null) line.Day = day;
                    else problems.Add($"'{row}': day '{text}' is none that can only be read one way; write it as 2026-05-04.");
                }
            }
            Lines.Add(line);
        }
        return problems;
    }
}
