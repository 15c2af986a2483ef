using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Parts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>
/// The stations of a campaign as they are being planned: what stands in the register, and over it what was typed, pasted or taken from
/// an earlier campaign and is not stored yet. Each act can be taken back.
/// </summary>
internal sealed partial class StationSheet
{
    /// <summary>Most lines of one sheet.</summary>
    public const int MostLines = 2000;

    private const int MostUndone = 100;

    private readonly List<StationLine> _lines = [];
    private readonly Dictionary<string, GridLine> _drawn = new(StringComparer.Ordinal);
    private readonly List<IReadOnlyList<Before>> _acts = [];
    private int _made;

    /// <summary>Its columns.</summary>
    public static IReadOnlyList<GridColumn> Columns { get; } =
    [
        new("Station", "5rem"), new("Latitude, °", "6.5rem", true), new("Longitude, °", "6.5rem", true),
        new("Mount", "7rem", Words: StationCells.MountWords), new("Height, m", "5rem", true),
        new("Chain", "auto", Between: ChainText.Between),
    ];

    /// <summary>Lines as they are drawn; the last one is empty.</summary>
    public IReadOnlyList<GridLine> Lines { get; private set; } = [];

    /// <summary>The lines themselves.</summary>
    public IReadOnlyList<StationLine> All => _lines;

    /// <summary>Lines that say something that is not stored.</summary>
    public IEnumerable<StationLine> Unsaid => _lines.Where(l => !l.IsEmpty && !l.IsUntouched);

    /// <summary>How many cells cannot be so.</summary>
    public int WrongCells => Unsaid.Where(l => !l.IsOut).Sum(l => l.Wrong.Count(w => w is not null));

    /// <summary>Whether an act can be taken back.</summary>
    public bool CanUndo => _acts.Count > 0;

    /// <summary>Lets the lines follow the register: what nobody touched is as it stands there now.</summary>
    public void Follow(Register.Register register, CampaignState campaign)
    {
        foreach (var station in campaign.Stations.Values)
        {
            // What was added here is stored by now, by this sheet or by others: from now on the line changes that station.
            var line = _lines.Find(l => l.Stored == station.Station)
                ?? _lines.Find(l => l.Stored is null && l.Name == station.Station);
            // What was typed of a station that others planned meanwhile stays as a whole: half theirs and half ours was said by nobody.
            var isTyped = line is { Stored: null };
            if (line is null) _lines.Add(line = new(Key()));
            (line.Stored, line.Note) = (station.Station, null);
            var now = StationTexts.Of(register, station, campaign.Chains.GetValueOrDefault(station.Station, []));
            for (var i = 0; i < now.Length; i++)
            {
                // The same said in other words is no change.
                if ((!isTyped && line.Texts[i] == line.Base[i]) || StationTexts.Mean(register, i, line.Texts[i], now[i]))
                    line.Texts[i] = now[i];
                line.Base[i] = now[i];
            }
            if (isTyped && !line.IsUntouched) line.Note = "others planned it meanwhile, otherwise";
        }
        foreach (var gone in _lines.Where(l => l.Stored is { } s && !campaign.Stations.ContainsKey(s)).ToList())
        {
            if (gone.IsUntouched || gone.IsOut)
            {
                _lines.Remove(gone);
                continue;
            }
            (gone.Stored, gone.Note) = (null, "taken out meanwhile; stored, it is there again");
            Array.Fill(gone.Base, "");
        }
        // Stations in the order of the register, what is added below them in the order in which it was.
        List<StationLine> sorted =
        [
            .. _lines.Where(l => l.Stored is not null).OrderBy(l => l.Stored, StringComparer.Ordinal),
            .. _lines.Where(l => l.Stored is null),
        ];
        _lines.Clear();
        _lines.AddRange(sorted);
        Work(register);
    }

    /// <summary>Takes what was typed into a cell, or a block that begins there; a block may begin with a row of headers.</summary>
    /// <returns>What was not taken; null where all was.</returns>
    public string? Take(Register.Register register, GridText said)
    {
        var at = _lines.FindIndex(l => l.Key == said.Key);
        if (at < 0) return null;
        if (!said.IsBlock)
        {
            Do([(_lines[at], said.Column, said.Text.Trim('\r', '\n'))]);
            Work(register);
            return null;
        }
        var block = StationBlock.Read(said.Text, said.Column);
        if (block.Fault is { } fault) return fault + " Nothing was taken.";
        if (block.Twice is { } twice)
            return $"Station {twice} stands twice in the block, and nothing says which row is meant. Nothing was taken.";
        var changes = new List<(StationLine, int, string)>();
        var (line, left) = (at, 0);
        foreach (var row in block.Rows)
        {
            // A station that is there already is changed where it stands, whatever line it was pasted on.
            var named = row.FirstOrDefault(c => c.Cell == StationCell.Name).Text;
            if (named is not null && row.All(c => c.Text.Length == 0)) continue;
            var target = named is { Length: > 0 } ? _lines.Find(l => l.Name == named) : null;
            if (target is null)
            {
                while (line < _lines.Count && named is { Length: > 0 } && _lines[line].Name.Length > 0) line++;
                if (line >= _lines.Count && !Add())
                {
                    left++;
                    continue;
                }
                target = _lines[line++];
            }
            // An empty cell says nothing: what stands there stays, and is emptied by hand where that is meant.
            changes.AddRange(row.Where(c => c.Text.Length > 0).Select(c => (target, (int)c.Cell, c.Text)));
        }
        Do(changes);
        Work(register);
        return (left, block.LeftOut.Count) switch
        {
            ( > 0, _) => $"{left} rows were left out: a plan is typed in {MostLines} lines at most. Take a larger one over as a list.",
            (_, > 0) => $"Left out, since no column of stations is meant: {string.Join(", ", block.LeftOut.Select(h => $"'{h}'"))}.",
            _ => null,
        };
    }

    /// <summary>Adds the stations of another campaign that are not here yet.</summary>
    /// <returns>How many were added.</returns>
    public int Copy(Register.Register register, CampaignState other, bool withChains)
    {
        var changes = new List<(StationLine, int, string)>();
        var count = 0;
        foreach (var station in other.Stations.Values.Where(s => !_lines.Exists(l => l.Name == s.Station)).ToList())
        {
            var line = _lines.Find(l => l.IsEmpty && !changes.Exists(c => c.Item1 == l));
            if (line is null)
            {
                if (!Add()) break;
                line = _lines[^1];
            }
            var texts = StationTexts.Of(register, station, withChains ? other.Chains.GetValueOrDefault(station.Station, []) : []);
            changes.AddRange(texts.Select((text, i) => (line, i, text)));
            count++;
        }
        Do(changes);
        Work(register);
        return count;
    }

    /// <summary>Gives the cells below that are empty what stands in a cell.</summary>
    /// <returns>How many took it.</returns>
    public int FillDown(Register.Register register, string key, int column)
    {
        var at = _lines.FindIndex(l => l.Key == key);
        if (at < 0 || column == (int)StationCell.Name) return 0;
        List<(StationLine, int, string)> changes = [.. _lines.Skip(at + 1)
            .Where(l => !l.IsEmpty && !l.IsOut && string.IsNullOrWhiteSpace(l.Texts[column]))
            .Select(l => (l, column, _lines[at].Texts[column]))];
        Do(changes);
        Work(register);
        return changes.Count;
    }

    /// <summary>Adds a device to a line's chain.</summary>
    public void Join(Register.Register register, string key, string device)
    {
        if (_lines.Find(l => l.Key == key) is not { } line) return;
        var chain = line.Texts[(int)StationCell.Chain].TrimEnd().TrimEnd('+').TrimEnd();
        var name = ChainText.Write(register, [device]);
        Do([(line, (int)StationCell.Chain, chain.Length == 0 ? name : chain + ChainText.Between + name)]);
        Work(register);
    }

    /// <summary>Marks a station as to be taken out, or no longer; a line that was only added is emptied.</summary>
    public void TurnOut(Register.Register register, string key)
    {
        if (_lines.Find(l => l.Key == key) is not { } line) return;
        if (line.Stored is null)
        {
            Do([.. line.Texts.Select((_, i) => (line, i, ""))]);
        }
        else
        {
            Remember([new(line.Key, Before.Out, line.IsOut ? "out" : "")]);
            line.IsOut = !line.IsOut;
        }
        Work(register);
    }

    /// <summary>Takes back the last act.</summary>
    public void Undo(Register.Register register)
    {
        if (_acts.Count == 0) return;
        foreach (var (key, column, text) in _acts[^1])
        {
            if (_lines.Find(l => l.Key == key) is not { } line) continue; // stored or gone meanwhile
            if (column == Before.Out) line.IsOut = text.Length > 0;
            else line.Texts[column] = text;
        }
        _acts.RemoveAt(_acts.Count - 1);
        Work(register);
    }

    /// <summary>Leaves all that is not stored; this too can be taken back.</summary>
    public void LeaveAll(Register.Register register)
    {
        List<StationLine> unsaid = [.. Unsaid];
        Remember([.. unsaid.SelectMany(l =>
            l.Texts.Select((t, i) => new Before(l.Key, i, t)).Append(new(l.Key, Before.Out, l.IsOut ? "out" : "")))]);
        foreach (var line in unsaid)
        {
            line.Base.CopyTo(line.Texts, 0);
            line.IsOut = false;
        }
        Work(register);
    }

    /// <summary>What stands to be stored, as one act: all of it or nothing.</summary>
    public Result<IReadOnlyList<Fact>> Decide(Register.Register register, Saying saying, string campaign, string reason)
    {
        List<StationLine> unsaid = [.. Unsaid];
        return StationPlans.Plan(
            register, saying, campaign, [.. unsaid.Where(l => !l.IsOut).Select(l => new StationRow(l.Plan!, l.Chain))],
            [.. unsaid.Where(l => l.IsOut).Select(l => l.Stored!)], reason);
    }

    /// <summary>Forgets what could be taken back: it is stored.</summary>
    public void Stored() => _acts.Clear();

    /// <summary>The campaign as it would be.</summary>
    public CampaignState Drafted(CampaignState campaign)
    {
        var stations = campaign.Stations;
        foreach (var line in Unsaid)
        {
            if (line.IsOut) stations = stations.Remove(line.Stored!);
            else if (line.Plan is { } plan) stations = stations.SetItem(plan.Station, plan);
        }
        return campaign with { Stations = stations };
    }

    private string Key() => (++_made).ToString(CultureInfo.InvariantCulture);

    private bool Add(bool atEnd = true)
    {
        if (_lines.Count >= MostLines) return false;
        if (!atEnd) _lines.RemoveAll(l => l.IsEmpty);
        _lines.Add(new(Key()));
        return true;
    }

    private void Do(IReadOnlyList<(StationLine Line, int Column, string Text)> changes)
    {
        List<(StationLine Line, int Column, string Text)> real =
            [.. changes.Where(c => c.Line.Texts[c.Column] != c.Text && !(c.Column == 0 && c.Line.Stored is not null))];
        if (real.Count == 0) return;
        Remember([.. real.Select(c => new Before(c.Line.Key, c.Column, c.Line.Texts[c.Column]))]);
        foreach (var (line, column, text) in real) line.Texts[column] = text;
    }

    private void Remember(IReadOnlyList<Before> act)
    {
        if (_acts.Count >= MostUndone) _acts.RemoveAt(0);
        _acts.Add(act);
    }

    private void Work(Register.Register register)
    {
        // One empty line stands at the end; those that were emptied wait there as long as that can be taken back.
        while (_lines.Count > 1 && _lines[^1].IsEmpty && _lines[^2].IsEmpty && !_acts.Exists(a => a.Any(b => b.Key == _lines[^1].Key)))
            _lines.RemoveAt(_lines.Count - 1);
        if (_lines.Count == 0 || (!_lines[^1].IsEmpty && _lines.Count < MostLines)) Add();
        StationMeaning.Work(register, _lines);
        // An equal line is the same one, so that it is not drawn again.
        Lines = [.. _lines.Select((l, i) => l.Drawn(i + 1))
            .Select(d => _drawn.GetValueOrDefault(d.Key) is { } was && was.Equals(d) ? was : d)];
        _drawn.Clear();
        foreach (var line in Lines) _drawn[line.Key] = line;
    }

    // What a cell said, or whether the line was to be taken out.
    private sealed record Before(string Key, int Column, string Text)
    {
        public const int Out = -1;
    }
}
