using System.Collections.Immutable;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Devices;

/// <summary>What the facts say of one device.</summary>
public sealed record DeviceState(string Id)
{
    /// <summary>Key of its <see cref="DeviceKind"/>; null where no registration is here yet.</summary>
    public string? Kind { get; init; }

    public string? Maker { get; init; }

    public string? Model { get; init; }

    public string? Serial { get; init; }

    /// <summary>Details by key of their field.</summary>
    public ImmutableSortedDictionary<string, FieldValue> Details { get; init; } = ImmutableSortedDictionary.Create<string, FieldValue>(StringComparer.Ordinal);

    /// <summary>All states of use, oldest first.</summary>
    public ImmutableArray<Dated<DeviceStatusChanged>> Statuses { get; init; } = [];

    /// <summary>All places, oldest first.</summary>
    public ImmutableArray<Dated<DeviceMoved>> Places { get; init; } = [];

    public ImmutableArray<Dated<DeviceServiced>> Services { get; init; } = [];

    public ImmutableArray<Dated<DeviceInspected>> Inspections { get; init; } = [];

    public ImmutableArray<Dated<DeviceNoted>> Notes { get; init; } = [];

    /// <summary>Facts that say one thing and another.</summary>
    public ImmutableArray<string> Contradictions { get; init; } = [];

    /// <summary>Facts about it that this version cannot read; while there are any, nothing about it can be decided.</summary>
    public ImmutableArray<string> WrittenByNewer { get; init; } = [];

    /// <summary>How many placements and checks it took part in.</summary>
    public int TrafficCount { get; init; }

    /// <summary>What other folders keep of it.</summary>
    internal StateParts Parts { get; init; } = StateParts.None;

    public DeviceStatus Status => Statuses.IsEmpty ? DeviceStatus.InService : Statuses[^1].What.Status;

    public string? Place => Places.IsEmpty ? null : Places[^1].What.Place;

    /// <summary>Words that people know it by: kind, model and serial.</summary>
    public string Name => string.Join(' ', new[] { DeviceKind.Find(Kind)?.Label ?? Kind ?? "Unregistered device", Model, Serial ?? Id }.Where(s => !string.IsNullOrEmpty(s)));

    public double? Number(DeviceField field) => Details.TryGetValue(field.Key, out var value) ? value.Number : null;

    public string? Text(DeviceField field) => Details.TryGetValue(field.Key, out var value) ? value.Text : null;

    internal static DeviceState Fold(string id, IEnumerable<FoldedFact> facts)
    {
        var state = new DeviceState(id);
        foreach (var (fact, counts, _) in facts)
        {
            if (fact is null) state = counts ? state with { TrafficCount = state.TrafficCount + 1 } : state;
            else if (fact.Body is IDeviceFact other) state = other.ApplyTo(state, fact, counts);
            else if (counts) state = state.Apply(fact);
        }
        return state;
    }

    private DeviceState Apply(Fact fact) => fact.Body switch
    {
        DeviceRegistered f => Register(fact, f),
        DeviceDescribed f => Describe(f),
        DeviceMoved f => this with { Places = Places.Add(Dated.Of(fact, f)) },
        DeviceStatusChanged f => this with { Statuses = Statuses.Add(Dated.Of(fact, f)) },
        DeviceNoted f => this with { Notes = Notes.Add(Dated.Of(fact, f)) },
        DeviceServiced f => this with { Services = Services.Add(Dated.Of(fact, f)) },
        DeviceInspected f => this with { Inspections = Inspections.Add(Dated.Of(fact, f)) },
        UnreadBody => this with { WrittenByNewer = WrittenByNewer.Add(fact.Id.ToString()) },
        _ => this,
    };

    private DeviceState Register(Fact fact, DeviceRegistered f)
    {
        if (Kind is null)
        {
            // A description that is dated before the registration still says more than it.
            var details = f.Details.Aggregate(Details, (all, d) => all.ContainsKey(d.Key) ? all : all.Add(d.Key, d.Value));
            return this with { Kind = f.Kind, Maker = Maker ?? f.Maker, Model = Model ?? f.Model, Serial = Serial ?? f.Serial, Details = details };
        }
        var differs = new List<string>();
        if (f.Kind != Kind) differs.Add($"kind {Kind} and {f.Kind}");
        if (f.Serial != Serial && DeviceIdentity.Normal(f.Serial) != DeviceIdentity.Normal(Serial)) differs.Add($"serial {Serial} and {f.Serial}");
        differs.AddRange(f.Details.Where(d => Details.TryGetValue(d.Key, out var known) && known != d.Value).Select(d => $"{d.Key} {Details[d.Key]} and {d.Value}"));
        var added = f.Details.Where(d => !Details.ContainsKey(d.Key)).Aggregate(Details, (all, d) => all.Add(d.Key, d.Value));
        var next = this with { Details = added };
        return differs.Count == 0 ? next : next with { Contradictions = Contradictions.Add($"Two registrations disagree: {string.Join("; ", differs)} (fact {fact.Id}).") };
    }

    private DeviceState Describe(DeviceDescribed f)
    {
        var next = this;
        foreach (var key in f.Clear) next = next.With(key, null);
        foreach (var (key, value) in f.Set) next = next.With(key, value);
        return next;
    }

    private DeviceState With(string key, FieldValue? value) => key switch
    {
        "kind" => this with { Kind = value?.ToString() ?? Kind },
        "maker" => this with { Maker = value?.ToString() },
        "model" => this with { Model = value?.ToString() },
        "serial" => this with { Serial = value?.ToString() },
        _ => this with { Details = value is { } v ? Details.SetItem(key, v) : Details.Remove(key) },
    };
}

/// <summary>Something that was stated of a day.</summary>
public sealed record Dated<T>(FactId Fact, DateOnly Day, string Author, T What);

/// <summary>Makes <see cref="Dated{T}"/>.</summary>
internal static class Dated
{
    /// <summary>What a fact stated of its day.</summary>
    public static Dated<T> Of<T>(Fact fact, T what) => new(fact.Id, fact.Occurred.Day, fact.Author, what);
}
