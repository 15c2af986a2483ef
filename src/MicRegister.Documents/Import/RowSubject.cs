namespace MicRegister.Documents.Import;

/// <summary>What a row speaks of, by the columns of its table.</summary>
internal static class RowSubject
{
    public const string Limit = "Limit";
    public const string Setting = "Setting";
    public const string Station = "Station";
    public const string Campaign = "Campaign";
    public const string Kit = "Kit";
    public const string Device = "Device";

    /// <summary>Which sort of table it stands in.</summary>
    public static string SortOf(TableHeader header) =>
        header.Has(Column.Limit) ? Limit
        : header.Has(Column.Setting) ? Setting
        : header.Has(Column.Station) ? Station
        : header.Has(Column.FirstDay) && header.Has(Column.LastDay) ? Campaign
        : header.Has(Column.Purpose) ? Kit
        : Device;

    /// <summary>The same in more words: the kind of a device where the row says it.</summary>
    public static string Of(RowReader row) => SortOf(row.Header) is var sort && sort != Device ? sort
        : (row.Row.Fault is null && row.PlaceOf(Column.Kind) is { } place ? Words.Kind(row.Row.At(place).Shown) : null)?.Label
            ?? row.KindAround?.Label ?? Device;
}
