using System.Buffers;
using System.Buffers.Text;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// One line of the journal: CRC-32C, then sequence, last sequence of its batch, sequence known to be on the disk when it was
/// written, recorded milliseconds, door, chain hash (base 64) and the fact's bytes, with a tab between and a line feed behind.
/// The CRC covers all that follows its tab; canonical JSON has neither tab nor line feed.
/// </summary>
internal readonly record struct JournalLine(int Sequence, int End, int Durable, long RecordedMs, string Door, byte[] Chain, ReadOnlyMemory<byte> Fact)
{
    public const int ChainSize = 32;
    private const int CrcDigits = 8;
    private const byte Tab = (byte)'\t';

    /// <summary>The chain hash of a fact: SHA-256 over the one before, the receipt and the bytes.</summary>
    public static byte[] ChainOf(ReadOnlySpan<byte> before, int sequence, long recordedMs, string door, ReadOnlySpan<byte> fact)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(before);
        hash.AppendData(Encoding.UTF8.GetBytes(FormattableString.Invariant($"{sequence}\t{recordedMs}\t{door}\t")));
        hash.AppendData(fact);
        return hash.GetHashAndReset();
    }

    public void Write(ArrayBufferWriter<byte> to)
    {
        var start = to.WrittenCount;
        to.Write("00000000\t"u8);
        to.Write(Encoding.UTF8.GetBytes(FormattableString.Invariant($"{Sequence}\t{End}\t{Durable}\t{RecordedMs}\t{Door}\t{Convert.ToBase64String(Chain)}\t")));
        to.Write(Fact.Span);
        var written = MemoryMarshal.AsMemory(to.WrittenMemory)[start..];
        Crc32C(written.Span[(CrcDigits + 1)..]).TryFormat(written.Span[..CrcDigits], out _, "x8", System.Globalization.CultureInfo.InvariantCulture);
        to.Write("\n"u8);
    }

    /// <summary>Reads a line without its line feed.</summary>
    /// <returns>False where it is not whole.</returns>
    public static bool TryRead(ReadOnlyMemory<byte> line, out JournalLine read)
    {
        read = default;
        var span = line.Span;
        if (span.Length < CrcDigits + 1 || span[CrcDigits] != Tab) return false;
        // Compared as text: a parser would take capitals too, and a flipped bit can make one.
        Span<byte> crc = stackalloc byte[CrcDigits];
        Crc32C(span[(CrcDigits + 1)..]).TryFormat(crc, out _, "x8", System.Globalization.CultureInfo.InvariantCulture);
        if (!crc.SequenceEqual(span[..CrcDigits])) return false;

        var at = CrcDigits + 1;
        if (!Number(span, ref at, out var sequence) || !Number(span, ref at, out var end) || !Number(span, ref at, out var durable) || !Number(span, ref at, out var recorded)) return false;
        var door = Field(span, ref at);
        var chain = new byte[ChainSize];
        if (Base64.DecodeFromUtf8(Field(span, ref at), chain, out _, out var size) != OperationStatus.Done || size != ChainSize) return false;
        read = new((int)sequence, (int)end, (int)durable, recorded, Encoding.UTF8.GetString(door), chain, line[at..]);
        return true;
    }

    /// <summary>CRC-32C (Castagnoli), as in RFC 3720, appendix B.4.</summary>
    public static uint Crc32C(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var word in MemoryMarshal.Cast<byte, ulong>(bytes)) crc = BitOperations.Crc32C(crc, word);
        foreach (var b in bytes[(bytes.Length / 8 * 8)..]) crc = BitOperations.Crc32C(crc, b);
        return ~crc;
    }

    /// <summary>A door as it can stand in a line.</summary>
    public static string CleanDoor(string door) => door.Length is > 0 and <= 200 && !door.Any(char.IsControl)
        ? door
        : throw new ArgumentException("A door is a text of 1 to 200 characters without control characters.", nameof(door));

    private static bool Number(ReadOnlySpan<byte> span, ref int at, out long number)
    {
        var field = Field(span, ref at);
        return Utf8Parser.TryParse(field, out number, out var used) && used == field.Length && used > 0;
    }

    private static ReadOnlySpan<byte> Field(ReadOnlySpan<byte> span, ref int at)
    {
        var rest = span[at..];
        var length = rest.IndexOf(Tab);
        if (length < 0) length = rest.Length;
        at = Math.Min(span.Length, at + length + 1);
        return rest[..length];
    }
}
