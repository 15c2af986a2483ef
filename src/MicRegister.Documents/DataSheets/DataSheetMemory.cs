using System.Globalization;

namespace MicRegister.Documents.DataSheets;

/// <summary>The basic block of a device's data sheet memory: who made it, its model and its serial number.</summary>
/// <param name="Manufacturer">Number of the manufacturer; 17 to 16381 are given, others a sign of another block.</param>
/// <param name="Model">Model number, 0 to 32767.</param>
/// <param name="VersionLetter">A to Z; null where there is none.</param>
/// <param name="VersionNumber">0 to 63.</param>
/// <param name="Serial">Serial number, 0 to 16777215.</param>
/// <param name="Template">Number of the template that follows; null where none does or it is not one of the standard's.</param>
/// <remarks>
/// IEEE 1451.4: 64 bits, least significant first over little-endian bytes (field widths, range of manufacturers and numbers of
/// templates seen in a tutorial on the standard, confirmed by decoding a public memory dump with known values). Templates of microphones
/// are named, not read: their layout was not found. Some devices were made to drafts whose first block is another one (seen): what is read
/// of those is wrong, and nothing in the block tells them apart.
/// </remarks>
public sealed record DataSheetMemory(int Manufacturer, int Model, char? VersionLetter, int VersionNumber, int Serial, int? Template)
{
    private const int BlockBytes = 8;
    private const int PageBytes = 32;

    /// <summary>Why these figures may be no figures at all: signs of another basic block; empty where none was seen.</summary>
    /// <remarks>
    /// Early memories follow drafts D0.9x with another basic block (IEEE tutorial on the templates of IEEE 1451.4); its layout is not known
    /// here, so that it cannot be told for certain. What a real block holds is common practice, no source: letters A to H, versions to 15.
    /// </remarks>
    public IReadOnlyList<string> Signs { get; init; } = [];

    /// <summary>What has to be known of every memory: its bytes do not say which edition they follow.</summary>
    public const string Caution = "Some early microphones follow drafts (D0.9x) of the standard with another basic block, which is not read here "
        + "and cannot be told from this one for certain: hold the figures against the device itself.";

    private const char LastUsualLetter = 'H';
    private const int LastUsualVersion = 15;

    /// <summary>Reads hexadecimal text: eight bytes of the block alone, or whole pages with their checksums.</summary>
    /// <exception cref="FormatException">It is no such memory; the message says why.</exception>
    public static DataSheetMemory ReadHex(string text)
    {
        var digits = new string([.. text.Where(c => !char.IsWhiteSpace(c) && c is not ('-' or ':' or ','))]);
        if (digits.Length == 0 || digits.Length % 2 == 1 || !digits.All(char.IsAsciiHexDigit)) throw new FormatException("Data sheet memory is pairs of hexadecimal digits.");
        return Read(Convert.FromHexString(digits));
    }

    /// <summary>Reads the memory's bytes.</summary>
    /// <exception cref="FormatException">It is no such memory; the message says why.</exception>
    public static DataSheetMemory Read(ReadOnlySpan<byte> memory)
    {
        if (memory.Length is >= BlockBytes and < PageBytes) return Decode(memory);
        if (memory.Length == 0 || memory.Length % PageBytes != 0) throw new FormatException($"The memory has {memory.Length} bytes; 8 to 31 bytes of data or whole pages of {PageBytes} are read.");
        var payload = new byte[memory.Length / PageBytes * (PageBytes - 1)];
        for (var page = 0; page < memory.Length / PageBytes; page++)
        {
            var bytes = memory.Slice(page * PageBytes, PageBytes);
            var sum = 0;
            foreach (var b in bytes) sum += b;
            if ((sum & 0xFF) != 0) throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"The checksum of page {page + 1} does not fit: its bytes add up to {sum & 0xFF}, not 0."));
            bytes[1..].CopyTo(payload.AsSpan(page * (PageBytes - 1)));
        }
        return Decode(payload);
    }

    private static DataSheetMemory Decode(ReadOnlySpan<byte> data)
    {
        var v = System.Buffers.Binary.BinaryPrimitives.ReadUInt64LittleEndian(data);
        // An erased memory has a checksum that fits.
        if (v is 0 or ulong.MaxValue) throw new FormatException("The memory is blank.");
        int manufacturer = (int)(v & 0x3FFF), letter = (int)(v >> 29 & 0x1F);
        if (letter > 26)
        {
            throw new FormatException(
                $"Version letter {letter}: allowed are 0 for none and 1 to 26. "
                + "These bytes are no basic block as read here; they may follow a draft (D0.9x).");
        }
        int? template = data.Length >= BlockBytes + 2 && (data[BlockBytes] & 3) == 0 && (data[BlockBytes] | data[BlockBytes + 1]) != 0
            ? (data[BlockBytes] >> 2) | ((data[BlockBytes + 1] & 3) << 6) : null;
        var memory = new DataSheetMemory(
            manufacturer, (int)(v >> 14 & 0x7FFF), letter == 0 ? null : (char)('A' + letter - 1), (int)(v >> 34 & 0x3F), (int)(v >> 40),
            template);
        return memory with { Signs = [.. SignsOf(memory)] };
    }

    private static IEnumerable<string> SignsOf(DataSheetMemory m)
    {
        if (m.Manufacturer is < 17 or > 16381)
            yield return $"Manufacturer {m.Manufacturer} is reserved: the standard gives 17 to 16381.";
        if (m.VersionLetter > LastUsualLetter) yield return $"Version letter {m.VersionLetter} is unusual.";
        if (m.VersionNumber > LastUsualVersion) yield return $"Version number {m.VersionNumber} is unusual.";
        if (m.Serial == 0) yield return "The serial number is 0.";
        if (m.Template is { } t && t is not (>= 25 and <= 43)) yield return $"Template {t} is none of the standard's, 25 to 43.";
    }

    /// <summary>Two memories are alike where their figures are; signs follow from them.</summary>
    public bool Equals(DataSheetMemory? other) => other is not null
        && (Manufacturer, Model, VersionLetter, VersionNumber, Serial, Template)
        == (other.Manufacturer, other.Model, other.VersionLetter, other.VersionNumber, other.Serial, other.Template);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Manufacturer, Model, VersionLetter, VersionNumber, Serial, Template);
}
