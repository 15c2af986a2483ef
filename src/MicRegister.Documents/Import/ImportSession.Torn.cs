using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <content>Takes tables again where rows of one file contradict each other, so that none of those is stored.</content>
public sealed partial class ImportSession
{
    // Rows that were put aside can bring another contradiction to light; hardly ever twice.
    private const int MostRounds = 5;

    private readonly Dictionary<string, PlannedDevice?> _before = new(StringComparer.Ordinal);

    /// <summary>Rows of the file at hand that contradict each other.</summary>
    internal TornRows Torn { get; } = new();

    /// <summary>Keeps what a device was before a row of the file at hand changes it.</summary>
    internal void Journal(PlannedDevice device, bool isNew)
    {
        if (!_before.ContainsKey(device.Id)) _before[device.Id] = isNew ? null : device.Copy();
    }

    /// <returns>Tables that wait for other files.</returns>
    private List<Waiting> TakeUntorn(
        IReadOnlyList<(TableReading Table, Sheet Sheet, ImportMapping Rules)> tables, FileReport report, Action tell,
        CancellationToken cancel)
    {
        Torn.Begin();
        _before.Clear();
        var (facts, cut, said, last) = (_stated.All.Count, report.Mark(), Standing.Remembered, _campaigns.Last);
        string[] profiles = [.. Profiles], campaigns = [.. Campaigns];
        for (var round = 1; ; round++)
        {
            var waiting = TakeAll(tables, report, tell, cancel);
            if (!Torn.Settle() || round == MostRounds) return waiting;
            cut();
            _stated.TakeBack(facts);
            _rules.Forget();
            foreach (var (id, before) in _before) Lookup.PutBack(id, before);
            _before.Clear();
            (Standing.Remembered, _campaigns.Last) = (said, last);
            Profiles.IntersectWith(profiles);
            Campaigns.IntersectWith(campaigns);
            foreach (var (table, _, _) in tables) table.Restart();
            Torn.Again();
        }
    }

    private List<Waiting> TakeAll(
        IReadOnlyList<(TableReading Table, Sheet Sheet, ImportMapping Rules)> tables, FileReport report, Action tell,
        CancellationToken cancel)
    {
        var waiting = new List<Waiting>();
        foreach (var (table, sheet, rules) in tables)
        {
            // Stations and what goes along may name devices and campaigns of a later file.
            var order = RowSubject.SortOf(table.Header) switch { RowSubject.Station => 1, RowSubject.Kit => 2, _ => 0 };
            var campaign = _campaigns.Last;
            if (order == 0) Take(table, sheet, rules, report, tell, cancel);
            else waiting.Add(new(report, order, () =>
            {
                _campaigns.Last = campaign ?? _campaigns.Last;
                Take(table, sheet, rules, report, tell, cancel);
            }));
        }
        return waiting;
    }
}
