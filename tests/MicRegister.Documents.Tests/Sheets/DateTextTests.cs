using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Sheets;

public sealed class DateTextTests
{
    [Theory]
    [InlineData("2026-05-04", null, "2026-05-04")]
    [InlineData("2026/05/04", null, "2026-05-04")]
    [InlineData("20260504", null, "2026-05-04")]
    [InlineData("2026-05-04T10:11:12", null, "2026-05-04")]
    [InlineData("4.5.2026", null, "2026-05-04")]
    [InlineData("04.05.2026 14:30", null, "2026-05-04")]
    [InlineData("25/12/2026", null, "2026-12-25")]
    [InlineData("12/25/2026", null, "2026-12-25")]
    [InlineData("4/4/2026", null, "2026-04-04")]
    [InlineData("03/04/2026", DateOrder.DayFirst, "2026-04-03")]
    [InlineData("03/04/2026", DateOrder.MonthFirst, "2026-03-04")]
    [InlineData("4 May 2026", null, "2026-05-04")]
    [InlineData("May 4, 2026", null, "2026-05-04")]
    [InlineData("4.5.26", null, "2026-05-04")]
    [InlineData("12-Mar-24", null, "2024-03-12")]
    [InlineData("3/14/25", null, "2025-03-14")]
    [InlineData("3. Februar 2025", null, "2025-02-03")]
    [InlineData("3 février 2025", null, "2025-02-03")]
    [InlineData("3 de marzo de 2025", null, "2025-03-03")]
    [InlineData("7 maart 2025", null, "2025-03-07")]
    [InlineData("7. März 99", null, "1999-03-07")]
    // Serial numbers: recomputed with Python 3.11, date(1899,12,30) + days.
    [InlineData("45000", null, "2023-03-15")]
    [InlineData("45000.75", null, "2023-03-15")]
    public void Days_are_read_as_people_write_them(string text, DateOrder? order, string day)
    {
        Assert.Null(DateText.TryRead(new(text), order, uses1904: false, out var read));
        Assert.Equal(DateOnly.ParseExact(day, "yyyy-MM-dd"), read);
    }

    [Theory]
    [InlineData("03/04/2026", "day-first or month-first")]
    [InlineData("3-4-2026", "day-first or month-first")]
    [InlineData("31.4.2026", "no day of a calendar")]
    [InlineData("29.2.2026", "no day of a calendar")]
    [InlineData("13/13/2026", "no day of a calendar")]
    [InlineData("4-5-26", "begin or end with the year")]
    [InlineData("soon", "not read as a date")]
    [InlineData("-5", "not read as a date")]
    [InlineData("4.5.1926", "outside the years")]
    [InlineData("12", "not read as a date")]
    public void Other_texts_are_refused_with_what_is_allowed(string text, string why) =>
        Assert.Contains(why, DateText.TryRead(new(text), null, uses1904: false, out _), StringComparison.Ordinal);

    // The epoch 1900 has a 29 February that never was: 59 is 28 February, 60 the phantom, 61 is 1 March (ISO/IEC 29500-1, 18.17.4.1).
    [Theory]
    [InlineData("1", false, "1900-01-01")]
    [InlineData("59", false, "1900-02-28")]
    [InlineData("60", false, "1900-02-28")]
    [InlineData("61", false, "1900-03-01")]
    [InlineData("1", true, "1904-01-02")]
    [InlineData("43538", true, "2023-03-15")]
    public void Serial_numbers_know_both_epochs(string serial, bool uses1904, string day) =>
        Assert.Equal(DateOnly.ParseExact(day, "yyyy-MM-dd"), DateText.FromSerial(serial, uses1904));
}
