using MicRegister.Documents.Import;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Import;

public sealed class ColumnTests
{
    [Theory]
    [InlineData("Serial No.", "serial")]
    [InlineData("S/N", "serial")]
    [InlineData("Seriennummer", "serial")]
    [InlineData("SENSITIVITY [mV/Pa]", "value")]
    [InlineData("Größe", "size-mm")]
    [InlineData("Expanded uncertainty (k = 2)", "uncertainty")]
    [InlineData("Polarization", "polarisation-v")]
    public void Headers_are_known_by_their_synonyms(string header, string key) => Assert.Equal(key, Column.ByName(header)?.Key);

    [Fact]
    public void Every_column_has_a_key_of_its_own_and_is_found_by_it()
    {
        Assert.Equal(Column.All.Count(), Column.All.Select(c => c.Key).Distinct().Count());
        Assert.All(Column.All, c => Assert.Equal(c, Column.OfKey(c.Key)));
        Assert.All(DeviceField.All, f => Assert.NotNull(Column.ByName(f.Label)));
    }
}
