using MicRegister.Documents.DataSheets;

namespace MicRegister.Documents.Tests.DataSheets;

public sealed class DataSheetMemoryTests
{
    // Own vector, computed by hand algebra from the field widths: manufacturer 1234, model 567, B, 3, serial 1234567.
    private static readonly DataSheetMemory Known = new(1234, 567, 'B', 3, 1_234_567, null);

    [Theory]
    [InlineData("d2 c4 8d 40 0c 87 d6 12")]
    [InlineData("D2C48D40-0C87D612")]
    [InlineData("22 d2c48d400c87d612 0000000000000000000000000000000000000000000000")] // one page: checksum, then the block
    public void The_basic_block_is_read(string hex) => Assert.Equal(Known, DataSheetMemory.ReadHex(hex));

    [Fact]
    public void Fields_reach_their_ends()
    {
        // All ones but the manufacturer's last bits (16381) and the letter (26 = Z): computed.
        var v = 16381UL | (32767UL << 14) | (26UL << 29) | (63UL << 34) | (16_777_215UL << 40);
        Assert.Equal(new DataSheetMemory(16381, 32767, 'Z', 63, 16_777_215, null), DataSheetMemory.Read(BitConverter.GetBytes(v)));
        // Selector 0 and template 33 after the block: 33 << 2 over two bytes.
        Assert.Equal(33, DataSheetMemory.ReadHex("d2c48d400c87d612 84 00").Template);
    }

    [Theory]
    [InlineData("0000000000000000", "blank")]
    [InlineData("ffffffffffffffff", "blank")]
    [InlineData("d2c4", "2 bytes")]
    [InlineData("d2c48d400c87d61", "pairs of hexadecimal digits")]
    [InlineData("23d2c48d400c87d6120000000000000000000000000000000000000000000000", "checksum of page 1")]
    [InlineData("d2c48d600f87d612", "they may follow a draft (D0.9x)")] // letter 27: 27 << 29 over the known block
    public void What_is_no_such_memory_is_told(string hex, string says) => Assert.Contains(says, Assert.Throws<FormatException>(() => DataSheetMemory.ReadHex(hex)).Message, StringComparison.Ordinal);

    // Manufacturers 0 to 16, 16382 and 16383 are reserved (IEEE tutorial on the templates of IEEE 1451.4).
    [Theory]
    [InlineData(16, 2, 3, 1234567, "Manufacturer 16 is reserved")]
    [InlineData(16382, 2, 3, 1234567, "Manufacturer 16382 is reserved")]
    [InlineData(16383, 2, 3, 1234567, "Manufacturer 16383 is reserved")]
    [InlineData(17, 2, 3, 1234567, null)]
    [InlineData(16381, 8, 15, 1, null)]
    [InlineData(1234, 9, 3, 1234567, "Version letter I is unusual")]
    [InlineData(1234, 2, 16, 1234567, "Version number 16 is unusual")]
    [InlineData(1234, 2, 3, 0, "The serial number is 0")]
    public void Signs_of_another_basic_block_are_said(int manufacturer, int letter, int version, int serial, string? sign)
    {
        var v = (ulong)manufacturer | (567UL << 14) | ((ulong)letter << 29) | ((ulong)version << 34) | ((ulong)serial << 40);

        Assert.StartsWith(sign ?? "", Assert.Single(DataSheetMemory.Read(BitConverter.GetBytes(v)).Signs.DefaultIfEmpty("")), StringComparison.Ordinal);
        Assert.Equal(sign is null, DataSheetMemory.Read(BitConverter.GetBytes(v)).Signs.Count == 0);
    }

    [Fact]
    public void A_template_that_is_none_of_the_standard_is_a_sign() =>
        // Selector 0 and template 12 after the block: 12 << 2.
        Assert.Contains("Template 12", Assert.Single(DataSheetMemory.ReadHex("d2c48d400c87d612 30 00").Signs), StringComparison.Ordinal);
}
