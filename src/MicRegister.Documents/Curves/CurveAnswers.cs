namespace MicRegister.Documents.Curves;

/// <summary>How commas and points are to be read where a file itself does not decide: what 1,250 or 1.250 is.</summary>
public enum NumberMarks
{
    /// <summary>The mark is the decimal mark: 1.25.</summary>
    Decimal,

    /// <summary>The mark parts thousands: 1250.</summary>
    Thousands,
}

/// <summary>What is known beside a curve file: what a person said of it, and the devices that its headers can name.</summary>
/// <param name="Columns">What a person said of columns, by number from 1; it counts for more than a header.</param>
/// <param name="Marks">What a person said of commas and points; null where nobody did.</param>
/// <param name="ReferenceHz">Frequency in Hz at which a sensitivity gives the relative curve; null for 250 Hz or, beyond the curve, the
/// nearest.</param>
/// <param name="DevicesOf">Ids of the devices that a header's text can stand for; null where headers name none.</param>
public sealed record CurveAnswers(
    IReadOnlyDictionary<int, ColumnMeaning> Columns, NumberMarks? Marks = null, double? ReferenceHz = null,
    Func<string, IReadOnlyList<string>>? DevicesOf = null)
{
    /// <summary>
    /// A serial number that stands beside the table and that a person said is of the device in question all the same; null where nobody
    /// did.
    /// </summary>
    public string? Serial { get; init; }

    /// <summary>Nothing is known beside the file.</summary>
    public static CurveAnswers None { get; } = new(new Dictionary<int, ColumnMeaning>());

    private const int MostColumns = 500;

    /// <summary>Reads answers such as 3=u and 2-31=level.</summary>
    /// <exception cref="FormatException">One is none; the message says what is allowed.</exception>
    public static IReadOnlyDictionary<int, ColumnMeaning> OfColumns(IEnumerable<string> said)
    {
        var columns = new Dictionary<int, ColumnMeaning>();
        foreach (var text in said)
        {
            if (text.Split('=', 2) is not [var which, var what] || Range(which) is not var (from, to))
                throw new FormatException(
                    $"Column '{text}': allowed is the number of a column, or two with a hyphen, =, and what it is: 3=u, 2-31=level.");
            if (ColumnMeaning.Parse(what) is not { } meaning)
            {
                throw new FormatException(
                    $"Column '{text}': allowed are {string.Join(", ", ColumnMeaning.All.Select(a => a.Key))}; "
                    + "level may have an angle from 0 to 180 behind a colon, u a factor from 1 to 5.");
            }
            for (var i = from; i <= to; i++) columns[i] = meaning;
        }
        return columns;
    }

    /// <summary>Reads decimal or thousands.</summary>
    /// <exception cref="FormatException">It is neither.</exception>
    public static NumberMarks? OfMarks(string? text) => text switch
    {
        null or "" => null,
        "decimal" => NumberMarks.Decimal,
        "thousands" => NumberMarks.Thousands,
        _ => throw new FormatException($"Marks '{text}': allowed are decimal (1,250 is 1.25) and thousands (1,250 is 1250)."),
    };

    private static (int From, int To)? Range(string text)
    {
        var ends = text.Split('-');
        if (ends.Length > 2 || !int.TryParse(ends[0], out var from) || !int.TryParse(ends[^1], out var to)) return null;
        return from >= 1 && from <= to && to <= MostColumns ? (from, to) : null;
    }
}
