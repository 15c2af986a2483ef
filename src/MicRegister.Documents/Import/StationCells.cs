using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>What a cell of a station says: in the lists that are taken over, in those that go out, and in the plan that is typed.</summary>
public static class StationCells
{
    /// <summary>Cells of a station in the order of the plan.</summary>
    public static IReadOnlyList<StationCell> All { get; } = Enum.GetValues<StationCell>();

    /// <summary>Short words for the mounts, as they stand in lists.</summary>
    public static IReadOnlyList<string> MountWords { get; } = [.. Enum.GetValues<Mount>().Select(MountWord)];

    /// <summary>The short word for a mount.</summary>
    public static string MountWord(Mount mount) => mount switch
    {
        Mount.FlushPlate => "flush plate",
        Mount.InvertedPlate => "inverted plate",
        Mount.GroundStand => "ground stand",
        Mount.Pole => "pole",
        _ => throw new ArgumentOutOfRangeException(nameof(mount), mount, null),
    };

    /// <summary>The mount that a text means, short or in the words of the pages; null where it means none.</summary>
    public static Mount? MountOf(string text) =>
        Words.MountOf(text) ?? Enum.GetValues<Mount>().Cast<Mount?>()
            .FirstOrDefault(m => string.Equals(m!.Value.InWords, text.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>Which cell each header of a block means.</summary>
    /// <param name="heads">The first row of the block.</param>
    /// <returns>A cell a header, null for one that is of no station; null where the row holds no headers.</returns>
    /// <remarks>Several headers may name parts of the chain, such as one of microphones and one of plates.</remarks>
    public static IReadOnlyList<StationCell?>? Heads(IReadOnlyList<string> heads)
    {
        StationCell?[] cells = [.. heads.Select(Meant)];
        return cells.Count(c => c is not null) >= Math.Min(2, heads.Count(h => h.Trim().Length > 0)) && cells.Any(c => c is not null)
            ? cells : null;
    }

    // Words that mean something else, or nothing, in a list of devices.
    private static readonly Dictionary<string, StationCell> Own = new(StringComparer.Ordinal)
    {
        ["chain"] = StationCell.Chain,
        ["kette"] = StationCell.Chain,
        ["messkette"] = StationCell.Chain,
        ["chaine"] = StationCell.Chain,
        ["cadena"] = StationCell.Chain,
        ["catena"] = StationCell.Chain,
        ["keten"] = StationCell.Chain,
        ["hohe"] = StationCell.Height,
        ["hauteur"] = StationCell.Height,
        ["altura"] = StationCell.Height,
        ["altezza"] = StationCell.Height,
        ["hoogte"] = StationCell.Height,
        ["halterung"] = StationCell.Mount,
        ["support"] = StationCell.Mount,
    };

    private static StationCell? Meant(string head)
    {
        // "Height, m" as the plan itself heads it: the unit is not its name.
        var name = head.Split(',')[0];
        if (Own.TryGetValue(Column.Plain(name), out var own)) return own;
        return Column.ByName(name) switch
        {
            null => null,
            var c when c == Column.Station => StationCell.Name,
            var c when c == Column.Latitude => StationCell.Latitude,
            var c when c == Column.Longitude => StationCell.Longitude,
            var c when c == Column.Mount => StationCell.Mount,
            var c when c == Column.Height => StationCell.Height,
            var c when Column.Parts.Any(p => p.Column == c) => StationCell.Chain,
            _ => null,
        };
    }
}

/// <summary>A cell of a station in the plan.</summary>
public enum StationCell
{
    Name,
    Latitude,
    Longitude,
    Mount,
    Height,
    Chain,
}
