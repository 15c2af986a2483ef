namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What a file says, drawn from what its cells mean: exactly what must be taken over, and what only a person can settle.</summary>
internal sealed class Truth
{
    private readonly Dictionary<string, TrueDevice> _devices = new(StringComparer.Ordinal);

    public IReadOnlyCollection<TrueDevice> Devices => _devices.Values;

    /// <summary>Whether a person must be asked, whatever is stored.</summary>
    public bool NeedsPerson { get; private init; }

    /// <summary>Sheets that may be passed over, if that is said.</summary>
    public IReadOnlyList<string> DoubtfulSheets { get; private init; } = [];

    /// <summary>How many devices and results are certain.</summary>
    public int Certain => Devices.Where(d => !d.IsDoubtful).Sum(d => 1
        + d.Results.Values.Count(r => r is { IsStated: true, IsDoubtful: false }));

    public static Truth Of(Draft draft)
    {
        var truth = new Truth
        {
            NeedsPerson = draft.IsForPerson,
            DoubtfulSheets = [.. draft.Grids.Where(g => g.IsDoubtful).Select(g => g.Name)]
        };
        foreach (var grid in draft.Grids)
        {
            foreach (var line in grid.Lines)
            {
                foreach (var meaning in line.Implied) truth.Take(meaning, grid.IsDoubtful, false);
                foreach (var cell in line.Cells)
                {
                    foreach (var meaning in cell.Means) truth.Take(meaning, grid.IsDoubtful, cell.IsDoubtful);
                }
            }
        }
        foreach (var device in truth.Devices)
        {
            // Where everything of it stands in doubt, so does it.
            device.IsDoubtful |= draft.NeedsPerson || !device.WasStated;
            // A day of calibration without any result: whether it counts, and as what, only a person can say.
            device.IsDoubtful |= device.Results.Values.Any(r => !r.IsDoubtful && r.Fields.ContainsKey(Said.Day)
                && !r.Fields.ContainsKey(Said.Value)
                && !r.Fields.ContainsKey(Said.Again));
            foreach (var result in device.Results.Values) result.Settle();
        }
        return truth;
    }

    private void Take(Meaning meaning, bool isInDoubtfulSheet, bool isDoubtfulCell)
    {
        var isDoubtful = isInDoubtfulSheet || isDoubtfulCell;
        if (!_devices.TryGetValue(meaning.Owner.Id, out var device)) _devices[meaning.Owner.Id] = device = new(meaning.Owner);
        device.WasStated |= !isDoubtful;
        if (meaning.Of is not { } of)
        {
            // Without a certain number nobody knows which device it is.
            device.IsDoubtful |= isDoubtfulCell && meaning.What is Said.Serial;
            Put(device.Fields, meaning, isDoubtful);
            return;
        }
        if (!device.Results.TryGetValue(of.Id, out var result)) device.Results[of.Id] = result = new(of);
        result.IsDoubtful |= isDoubtful;
        Put(result.Fields, meaning, isDoubtful);
    }

    // What is certain outdoes what is not, and where anything may be stored it stays so.
    private static void Put(Dictionary<Said, Stated> fields, Meaning meaning, bool isDoubtful)
    {
        if (!fields.TryGetValue(meaning.What, out var known)
            || (!isDoubtful && known != Stated.Anything)) fields[meaning.What] = meaning.Value;
    }
}

/// <summary>A device as a file tells of it.</summary>
internal sealed class TrueDevice(Instrument instrument)
{
    public Instrument Instrument { get; } = instrument;

    public Dictionary<Said, Stated> Fields { get; } = [];

    public Dictionary<string, TrueResult> Results { get; } = new(StringComparer.Ordinal);

    public bool IsDoubtful { get; set; }

    /// <summary>Whether something certain was said of it.</summary>
    public bool WasStated { get; set; }
}

/// <summary>A result as a file tells of it.</summary>
internal sealed class TrueResult(Calibrated of)
{
    public Calibrated Of { get; } = of;

    public Dictionary<Said, Stated> Fields { get; } = [];

    public bool IsDoubtful { get; set; }

    /// <summary>Whether the file gives its value and when it was measured.</summary>
    public bool IsStated => Fields.ContainsKey(Said.Value) && (Fields.ContainsKey(Said.Day) || Fields.ContainsKey(Said.Year));

    /// <summary>The value in another unit, where the file gives it twice.</summary>
    public Stated? Again { get; private set; }

    /// <summary>Where the value stands in the other unit alone, that is the value.</summary>
    public void Settle()
    {
        if (!Fields.Remove(Said.Again, out var again)) return;
        if (!Fields.TryAdd(Said.Value, again)) Again = again;
    }
}
