namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What a reader without fault stores of a file: all that is certain, and nothing else.</summary>
internal static class Perfect
{
    public static List<TakenDevice> Of(Truth truth) =>
        [.. truth.Devices.Where(d => !d.IsDoubtful).Select(d => new TakenDevice(Stored(d.Fields), [.. d.Results.Values
            .Where(r => r is { IsStated: true, IsDoubtful: false }).Select(r => Result(d, r))]))];

    private static TakenResult Result(TrueDevice device, TrueResult result)
    {
        var fields = Stored(result.Fields);
        // Of a year some day is stored, and said to be none.
        var isOfYear = fields.Remove(Said.Year, out var year) && !fields.ContainsKey(Said.Day);
        if (isOfYear) fields[Said.Day] = new($"{year.Text}-07-01");
        return new(device.Instrument.Quantity, fields, isOfYear);
    }

    private static Dictionary<Said, Stated> Stored(Dictionary<Said, Stated> fields) =>
        fields.Where(f => f.Value != Stated.Anything).ToDictionary();
}
