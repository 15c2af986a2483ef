using System.Globalization;
using System.Runtime.InteropServices;

namespace MicRegister.Documents.Import;

/// <summary>
/// Rows of one file that contradict each other: nobody knows which is right, so that none of them is taken, whichever comes first. Who said
/// what is noted while rows are taken; where a contradiction turns up, they are taken again without those rows.
/// </summary>
internal sealed class TornRows
{
    private readonly Dictionary<(string Subject, string Key), Sayings> _said = [];
    private readonly Dictionary<(string Subject, string Key), (int Row, RowProblem Problem)> _keys = [];
    private readonly Dictionary<(string Sheet, int Row), RowProblem> _found = [];
    private readonly Dictionary<(string Sheet, int Row), RowProblem> _torn = [];

    private readonly record struct Saying(int Row, string Sheet, bool IsChecked);

    private readonly record struct Sayings(Saying First, List<Saying>? Further)
    {
        public IEnumerable<Saying> All => [First, .. Further ?? []];
    }

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
        // Nearly all is said once, of hundreds of thousands of devices: that needs no list.
        ref var said = ref CollectionsMarshal.GetValueRefOrAddDefault(_said, (subject, key), out var isKnown);
        var saying = new Saying(row.Row.Number, row.Sheet, row.IsChecked);
        if (!isKnown) said = new(saying, null);
        else if ((said.Further is [.., var last] ? last : said.First).Row != row.Row.Number)
        {
            if (said.Further is null) said = said with { Further = [] };
            said.Further!.Add(saying);
        }
    }

    /// <summary>Number of the first row of this file that says something of a subject; null where none does.</summary>
    public int? FirstOf(string subject, string key) => _said.TryGetValue((subject, key), out var said) ? said.First.Row : null;

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
            foreach (var (other, sheet, _) in _said[key].All.Where(r => !r.IsChecked))
            {
                _found.TryAdd((sheet, other), new(
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
