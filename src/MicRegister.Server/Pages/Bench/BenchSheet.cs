using MicRegister.Documents.Import;
using MicRegister.Metrology.Drift;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Server.Pages.Devices;
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

    public string? Pressure { get; set; }

    public string? Temperature { get; set; }

    public string? Humidity { get; set; }

    /// <summary>Lines that can be stored as they stand.</summary>
    public IEnumerable<BenchLine> Good => Lines.Where(l => l.Issued is not null && (l.Fits || l.IsInsisted));

    /// <summary>How many lines were worked out so far.</summary>
    internal int Worked { get; private set; }

    /// <summary>Works out all lines on a state of the register: it is another one, or what all have in common changed.</summary>
    public void Work(Desk desk, Register.Register register)
    {
        foreach (var line in Lines) WorkOut(desk, register, line);
        EndWithEmpty();
    }

    /// <summary>Works out one line, after a key in it: nothing in it changes what the others say.</summary>
    public void Work(Desk desk, Register.Register register, BenchLine line)
    {
        WorkOut(desk, register, line);
        EndWithEmpty();
    }

    private void EndWithEmpty()
    {
        if (Lines.Count == 0 || !Lines[^1].IsEmpty) Lines.Add(new());
    }

    private void WorkOut(Desk desk, Register.Register register, BenchLine line)
    {
        Worked++;
        (line.Device, line.Issued, line.Expected, line.Problem) = (null, null, null, null);
        line.Look();
        if (string.IsNullOrWhiteSpace(line.Serial)) return;
        var found = SerialIndex.Find(register, line.Serial);
        var calibrated = found.Where(d => DeviceKind.Find(d.Kind)?.Calibrated is not null).ToList();
        if ((calibrated.Count > 0 ? calibrated : found) is not [var device])
        {
            line.Problem = found.Count == 0
                ? $"No device has the serial number '{line.Serial}'."
                : $"{found.Count} devices have the serial number '{line.Serial}'; open the one that is meant in the fleet.";
            return;
        }
        line.Device = device;
        if (string.IsNullOrWhiteSpace(line.Value)) return;
        var draft = CertificateDraft.For(device, desk.Today);
        (draft.Day, draft.Laboratory, draft.Number) = (line.Day ?? Day, Laboratory, line.Number);
        if (!string.IsNullOrWhiteSpace(Method)) draft.Method = Method;
        if (!string.IsNullOrWhiteSpace(line.Unit)) draft.Unit = line.Unit;
        // What is below nought is a level, whatever the unit before was.
        else if (draft.Quantity == "sensitivity" && draft.Unit.EndsWith("V/Pa", StringComparison.Ordinal)
            && MeasuredText.TryRead(line.Value, out var typed, out _) && typed < 0)
        {
            draft.Unit = "dB re 1 V/Pa";
        }
        (draft.Value, draft.Expanded, draft.Factor) = (line.Value, line.Expanded, Factor);
        if (line.IsInPercent) draft.UncertaintyUnit = "%";
        (draft.Pressure, draft.Temperature, draft.Humidity) = (Pressure, Temperature, Humidity);
        if (draft.Read() is not Result<CertificateIssued>.Accepted { Value: var issued })
        {
            line.Problem = ((Result<CertificateIssued>.Rejected)draft.Read()).Why.Text;
            return;
        }
        if (draft.Day > desk.Today || draft.Day.Year < 1950)
        {
            line.Problem = $"Day '{draft.Day:yyyy-MM-dd}': allowed is from 1950-01-01 to today, {desk.Today:yyyy-MM-dd}.";
            return;
        }
        if (CalibrationDecisions.Wrong(issued) is { } wrong)
        {
            line.Problem = wrong.Text;
            return;
        }
        (line.Issued, line.IssuedOn, line.ShownUnit) = (issued, draft.Day, draft.Unit);
        line.Expected = ExpectedResult.Of(desk, register, device, issued, draft.Day);
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

/// <summary>One result as it is being entered.</summary>
public sealed class BenchLine
{
    public string? Serial { get; set; }

    public string? Value { get; set; }

    /// <summary>Unit of the result; null takes that of the device's certificate before.</summary>
    public string? Unit { get; set; }

    /// <summary>U, in dB unless it is in percent.</summary>
    public string? Expanded { get; set; }

    public bool IsInPercent { get; set; }

    /// <summary>Day; null takes that of all.</summary>
    public DateOnly? Day { get; set; }

    public string? Number { get; set; }

    /// <summary>Whether a person says it all the same, though it does not fit.</summary>
    public bool IsInsisted { get; set; }

    public DeviceState? Device { get; set; }

    public CertificateIssued? Issued { get; set; }

    public DateOnly IssuedOn { get; set; }

    public string? ShownUnit { get; set; }

    /// <summary>Its level beside what was to be expected; null until there is a result.</summary>
    public ExpectedResult? Expected { get; set; }

    /// <summary>Level in reference conditions, in dB.</summary>
    public double? LevelDb => Expected?.LevelDb;

    /// <summary>Against the forecast before acceptance; null where nothing can be expected.</summary>
    public EntryCheck? Check => Expected?.Check;

    public string? Problem { get; set; }

    public bool Fits => Check?.Fits != false;

    private (string?, string?, string?, string?, bool)? _looked;

    /// <summary>Whoever says that it is right says so of these figures: others have to be looked at again.</summary>
    public void Look()
    {
        var now = (Serial, Value, Unit, Expanded, IsInPercent);
        if (_looked is { } before && before != now) IsInsisted = false;
        _looked = now;
    }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Serial) && string.IsNullOrWhiteSpace(Value);

    /// <summary>Takes a result with or without its unit.</summary>
    /// <param name="text">What stands in the cell.</param>
    /// <param name="header">Unit in the header; null where none stands there.</param>
    public void TakeValue(string text, string? header = null)
    {
        Value = text;
        if (header is not null && ResultLevel.Units.Contains(header)) Unit = header;
        if (MeasuredText.TryRead(text, out var value, out var unit) && unit is not null && ResultLevel.Units.Contains(unit))
            (Value, Unit) = (value.ToString("R", System.Globalization.CultureInfo.InvariantCulture), unit);
    }

    /// <summary>Takes an uncertainty with or without its unit.</summary>
    /// <param name="text">What stands in the cell.</param>
    /// <param name="header">Unit in the header; null where none stands there.</param>
    public void TakeUncertainty(string text, string? header = null)
    {
        (Expanded, IsInPercent) = (text, header == "%");
        if (MeasuredText.TryRead(text, out var value, out var unit) && unit is "dB" or "%")
            (Expanded, IsInPercent) = (value.ToString("R", System.Globalization.CultureInfo.InvariantCulture), unit == "%");
    }
}
