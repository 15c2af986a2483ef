using System.Globalization;
using MudBlazor;
using MudBlazor.Utilities.Exceptions;

namespace MicRegister.Server.Pages.Parts;

/// <summary>Reads and writes days in the one way that is taken, and says what is none in our words: the library has others.</summary>
internal sealed class DayConverter : IReversibleConverter<DateTime?, string?>
{
    private const string Form = "yyyy-MM-dd";

    /// <inheritdoc />
    public string? Convert(DateTime? input) => input?.ToString(Form, CultureInfo.InvariantCulture);

    /// <inheritdoc />
    public DateTime? ConvertBack(string? input)
    {
        if (string.IsNullOrWhiteSpace(input)) return null;
        return DateTime.TryParseExact(input.Trim(), Form, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
            : throw new ConversionException("'{0}' is no day: a day is written 2026-05-17.", [input.Trim()]);
    }
}
