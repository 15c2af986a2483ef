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
    [InlineData("0100000000000001", "Manufacturer 1")]
    public void What_is_no_such_memory_is_told(string hex, string says) => Assert.Contains(says, Assert.Throws<FormatException>(() => DataSheetMemory.ReadHex(hex)).Message, StringComparison.Ordinal);
}
