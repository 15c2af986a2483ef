using System.Globalization;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Rows of one file that contradict each other: nobody knows which is right, so that none of them is taken, whichever comes first. Who said
/// what is noted while rows are taken; where a contradiction turns up, they are taken again without those rows.
/// </summary>
internal sealed class TornRows
{
    private readonly Dictionary<(string Subject, string Key), List<(SheetRow Row, string Sheet, bool IsChecked)>> _said = [];
    private readonly Dictionary<(string Subject, string Key), (int Row, RowProblem Problem)> _keys = [];
    private readonly Dictionary<(string Sheet, int Row), RowProblem> _found = [];
    private readonly Dictionary<(string Sheet, int Row), RowProblem> _torn = [];

    /// <summary>Forgets all, for another file.</summary>
    public void Begin()
    {
        Again();
        _torn.Clear();
    }

    /// <summary>Forgets what was said, before the rows are taken again.</summary>
    public void Again()
    {
        _said.Clear();
        _keys.Clear();
        _found.Clear();
    }

    /// <summary>Notes that a row says something of a subject.</summary>
    public void Says(string subject, string key, RowReader row)
    {
        if (!_said.TryGetValue((subject, key), out var rows)) _said[(subject, key)] = rows = [];
        if (rows.Count == 0 || rows[^1].Row.Number != row.Row.Number) rows.Add((row.Row, row.Sheet, row.IsChecked));
    }

    /// <summary>Number of the first row of this file that says something of a subject; null where none does.</summary>
    public int? FirstOf(string subject, string key) => _said.TryGetValue((subject, key), out var rows) ? rows[0].Row.Number : null;

    /// <summary>Notes that a row contradicts those before it; those of other files stand.</summary>
    /// <returns>The problem, to be thrown.</returns>
    public RowProblem Against(string subject, string key, RowReader row, RowProblem problem)
    {
        if (!_said.ContainsKey((subject, key))) return problem;
        _found.TryAdd((row.Sheet, row.Row.Number), problem);
        _keys.TryAdd((subject, key), (row.Row.Number, problem));
        return problem;
    }

    /// <summary>Puts aside the rows that were found.</summary>
    /// <returns>Whether there are any that were not before.</returns>
    public bool Settle()
    {
        // Those too that came later and say what the first one said.
        foreach (var (key, (row, problem)) in _keys)
        {
            foreach (var (other, sheet, _) in _said[key].Where(r => !r.IsChecked))
            {
                _found.TryAdd((sheet, other.Number), new(
                    RowSort.Questioned,
                    string.Create(CultureInfo.InvariantCulture, $"row {row} contradicts it ({problem.Message}); leave the right one"),
                    problem.Header, problem.Value));
            }
        }
        var before = _torn.Count;
        foreach (var (row, problem) in _found) _torn.TryAdd(row, problem);
        return _torn.Count > before;
    }

    /// <summary>Why a row is not taken; null where nothing contradicts it.</summary>
    public RowProblem? Of(RowReader row) => _torn.GetValueOrDefault((row.Sheet, row.Row.Number));
}
