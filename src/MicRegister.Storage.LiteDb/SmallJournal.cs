using System.Globalization;
using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// An append-only file of texts, one a line with its CRC-32C before it: what was acknowledged is there after any crash. A last line that was
/// torn is cut off; a line that is damaged with others behind it stops the opening, so that nothing is silently lost.
/// </summary>
public sealed class SmallJournal : IDisposable
{
    private const int CrcDigits = 8;
    private readonly IStoreFile _file;
    private readonly IDisposable _lock;
    private long _end;

    private SmallJournal(IStoreFile file, IDisposable held, long end, IReadOnlyList<string> lines) => (_file, _lock, _end, Lines) = (file, held, end, lines);

    /// <summary>Texts that were there when it was opened, oldest first.</summary>
    public IReadOnlyList<string> Lines { get; }

    /// <summary>Opens it, making it where it is missing.</summary>
    /// <exception cref="StoreInUseException">Another program holds it.</exception>
    /// <exception cref="StoreException">A line that others follow is damaged.</exception>
    public static SmallJournal Open(IStoreFiles files, string name)
    {
        var held = files.TryLock(name + ".lock") ?? throw new StoreInUseException($"Another program holds {name}.");
        try
        {
            var file = files.OpenWrite(name);
            var bytes = new byte[file.Length];
            for (var at = 0; at < bytes.Length;)
            {
                var read = file.Read(at, bytes.AsSpan(at));
                if (read == 0) throw new StoreException($"{name} ends before it should.");
                at += read;
            }
            var (lines, end) = Read(bytes, name);
            if (end < bytes.Length)
            {
                file.SetLength(end);
                file.Flush();
            }
            return new(file, held, end, lines);
        }
        catch
        {
            held.Dispose();
            throw;
        }
    }

    /// <summary>Appends a text; returns when it is on the disk.</summary>
    /// <param name="text">Without line feeds.</param>
    public void Append(string text)
    {
        if (text.Contains('\n', StringComparison.Ordinal)) throw new ArgumentException("A line holds no line feed.", nameof(text));
        var content = Encoding.UTF8.GetBytes(text);
        byte[] line = [.. Encoding.ASCII.GetBytes(JournalLine.Crc32C(content).ToString("x8", CultureInfo.InvariantCulture)), (byte)'\t', .. content, (byte)'\n'];
        _file.Write(_end, line);
        _file.Flush();
        _end += line.Length;
    }

    public void Dispose()
    {
        _file.Dispose();
        _lock.Dispose();
    }

    private static (List<string> Lines, long End) Read(byte[] bytes, string name)
    {
        var lines = new List<string>();
        var start = 0;
        while (start < bytes.Length)
        {
            var feed = Array.IndexOf(bytes, (byte)'\n', start);
            var line = bytes.AsSpan(start, (feed < 0 ? bytes.Length : feed) - start);
            var isWhole = feed >= 0 && line.Length > CrcDigits && line[CrcDigits] == '\t'
                && Encoding.ASCII.GetString(line[..CrcDigits]) == JournalLine.Crc32C(line[(CrcDigits + 1)..]).ToString("x8", CultureInfo.InvariantCulture);
            if (!isWhole)
            {
                // Only what a crash can leave is cut: one unfinished line at the very end.
                if (feed >= 0 && feed < bytes.Length - 1) throw new StoreException($"{name}, line {lines.Count + 1} is damaged, and others follow it. Put back a copy; nothing was changed.");
                return (lines, start);
            }
            lines.Add(Encoding.UTF8.GetString(line[(CrcDigits + 1)..]));
            start = feed + 1;
        }
        return (lines, start);
    }
}
