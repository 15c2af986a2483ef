namespace MicRegister.Documents.Import;

/// <summary>Columns of a table that hold one further result.</summary>
/// <param name="Year">First day of the year or month that their headers name.</param>
/// <param name="Index">Number in their headers.</param>
public sealed record ResultGroup(DateOnly? Year, int? Index = null)
{
    /// <summary>Columns that a result has of its own.</summary>
    internal static IReadOnlySet<Column> Family { get; } = new HashSet<Column>
    {
        Column.Day, Column.Value, Column.FoundValue, Column.LeftValue, Column.Uncertainty, Column.Factor, Column.Unit, Column.Laboratory,
            Column.Certificate,
        Column.Method, Column.CalibrationHz, Column.Pressure, Column.Temperature, Column.Humidity, Column.Due, Column.Reference,
    };

    /// <summary>Whether <see cref="Year"/> is the day itself.</summary>
    public bool IsDay { get; init; }

    public Dictionary<Column, int> Places { get; } = [];
}
