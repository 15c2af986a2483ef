using MicRegister.Documents.Import;

namespace MicRegister.Documents.Tests.Import;

public sealed class MeasuredTextTests
{
    [Theory]
    [InlineData("12.5", 12.5, null)]
    [InlineData("12,5 mV/Pa", 12.5, "mV/Pa")]
    [InlineData("-38,06 dB re 1 V/Pa", -38.06, "dB re 1 V/Pa")]
    [InlineData("\u221238.06 dB", -38.06, "dB")]
    [InlineData("±0,05 dB", 0.05, "dB")]
    [InlineData("1.234,5", 1234.5, null)]
    [InlineData("1,234.5", 1234.5, null)]
    [InlineData("1 013,25 hPa", 1013.25, "hPa")]
    [InlineData("5%", 5, "%")]
    [InlineData("1e-3 V/Pa", 0.001, "V/Pa")]
    [InlineData(".5", 0.5, null)]
    [InlineData("20 kHz", 20, "kHz")]
    public void Numbers_are_read_as_people_write_them(string text, double value, string? unit)
    {
        Assert.True(MeasuredText.TryRead(text, out var read, out var readUnit));
        Assert.Equal((value, unit), (read, readUnit));
    }

    [Theory]
    [InlineData("")]
    [InlineData("abc")]
    [InlineData("12 furlongs")]
    [InlineData("1,2,3,4")]
    [InlineData("#N/A")]
    [InlineData("--5")]
    [InlineData("1e999")]
    public void Other_texts_are_none(string text) => Assert.False(MeasuredText.TryRead(text, out _, out _));

    [Theory]
    [InlineData("Sensitivity [mV/Pa]", "mV/Pa")]
    [InlineData("Sens. (dB re 1 V/Pa)", "dB re 1 V/Pa")]
    [InlineData("Level, dB", "dB")]
    [InlineData("Sensitivity mV/Pa", "mV/Pa")]
    [InlineData("U (k = 2) [dB]", "dB")]
    [InlineData("Serial No", null)]
    public void Headers_carry_units(string header, string? unit) => Assert.Equal(unit, MeasuredText.UnitOfHeader(header));

    [Theory]
    [InlineData("1/2\"", 12.7)]
    [InlineData("1/4 inch", 6.35)]
    [InlineData("1/8\"", 3.175)]
    public void Capsule_sizes_are_read_in_inches(string text, double mm) => Assert.Equal(mm, MeasuredText.CapsuleSize(MeasuredText.InchFraction(text)!.Value));

    [Fact]
    public void Quantities_change_units()
    {
        Assert.Equal(101.325, MeasuredText.Convert(1013.25, "hPa", "kPa")!.Value, 9);
        Assert.Equal(20000, MeasuredText.Convert(20, "kHz", "Hz"));
        Assert.Equal(24, MeasuredText.Convert(2, "years", "months"));
        Assert.Null(MeasuredText.Convert(2, "years", "Hz"));
    }
}
