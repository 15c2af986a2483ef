using System.Globalization;
using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// Sequence and chain hash of the last flush, renewed after each one, in one sector. It shows when a journal was cut, and tells
/// readers how far facts are on the disk. It may lag behind the journal, never run ahead of it.
/// </summary>
internal sealed class HeadFile(IStoreFile file) : IDisposable
{
    public const string Name = "head";
    private const int Size = 96;

    public static LogHead? Read(IStoreFiles files)
    {
        if (!files.Exists(Name)) return null;
        using var file = files.OpenRead(Name);
        Span<byte> bytes = stackalloc byte[Size];
        var got = file.Read(0, bytes);
        var parts = Encoding.ASCII.GetString(bytes[..got]).TrimEnd('\n', ' ', '\0').Split(' ');
        // A head that cannot be read is as good as none: the journal guards itself against torn tails.
        return parts.Length == 3 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var sequence) && parts[1].Length == 64
            && parts[2] == Check(parts[0], parts[1]) ? new(sequence, parts[1]) : null;
    }

    public void Write(LogHead head)
    {
        var sequence = head.Sequence.ToString(CultureInfo.InvariantCulture);
        file.Write(0, Encoding.ASCII.GetBytes(FormattableString.Invariant($"{sequence} {head.Chain} {Check(sequence, head.Chain)}").PadRight(Size - 1) + "\n"));
    }

    public void Dispose() => file.Dispose();

    private static string Check(string sequence, string chain) =>
        JournalLine.Crc32C(Encoding.ASCII.GetBytes(sequence + " " + chain)).ToString("x8", CultureInfo.InvariantCulture);
}
