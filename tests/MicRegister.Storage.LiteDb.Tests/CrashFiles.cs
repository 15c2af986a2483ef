namespace MicRegister.Storage.LiteDb.Tests;

/// <summary>A folder in memory that remembers every write and flush, and gives back what a power cut may have left.</summary>
internal sealed class CrashFiles : IStoreFiles
{
    private readonly Dictionary<string, byte[]> _initial = [];
    private readonly Dictionary<string, MemoryStream> _now = [];
    private readonly List<Operation> _operations = [];

    public string? Folder => null;

    /// <summary>Number of writes, flushes and renames so far.</summary>
    public int Operations => _operations.Count;

    public static CrashFiles With(Dictionary<string, byte[]> content)
    {
        var files = new CrashFiles();
        foreach (var (name, bytes) in content)
        {
            files._initial[name] = bytes;
            files._now[name] = Stream(bytes);
        }
        return files;
    }

    /// <summary>What the disk may hold when the power goes just after an operation.</summary>
    /// <param name="after">Number of operations that were begun.</param>
    /// <param name="random">Decides what became of each write that was not flushed.</param>
    /// <param name="mode">0 nothing of it, 1 a prefix, 2 a prefix and half of the next, 3 any 512-byte pieces.</param>
    public Dictionary<string, byte[]> CrashState(int after, Random random, int mode)
    {
        var state = _initial.ToDictionary(p => p.Key, p => p.Value);
        foreach (var name in _operations.Take(after).Select(o => o.File).Distinct())
        {
            var own = _operations.Take(after).Where(o => o.File == name).ToList();
            var flushed = own.FindLastIndex(o => o.Kind is Kind.Flush or Kind.Replace) + 1;
            var stream = Stream(state.GetValueOrDefault(name, []));
            foreach (var o in own.Take(flushed)) Apply(stream, o);
            var rest = own.Skip(flushed).ToList();
            var whole = mode is 1 or 2 ? random.Next(rest.Count + 1) : 0;
            foreach (var o in rest.Take(whole)) Apply(stream, o);
            if (mode == 2 && whole < rest.Count) Apply(stream, rest[whole] with { Bytes = rest[whole].Bytes?[..random.Next(rest[whole].Bytes!.Length)] });
            if (mode == 3)
            {
                foreach (var o in rest.Where(o => o.Kind == Kind.Write))
                {
                    for (var at = 0; at < o.Bytes!.Length; at += 512)
                    {
                        if (random.Next(2) == 0) Apply(stream, new(Kind.Write, name, o.Offset + at, o.Bytes[at..Math.Min(o.Bytes.Length, at + 512)]));
                    }
                }
            }
            state[name] = stream.ToArray();
        }
        return state;
    }

    public bool Exists(string name) => _now.ContainsKey(name);

    public IStoreFile OpenRead(string name) => new MemoryFile(this, name);

    public IStoreFile OpenWrite(string name)
    {
        if (!Exists(name)) Do(new(Kind.Replace, name, 0, []));
        return new MemoryFile(this, name);
    }

    public void Replace(string name, Action<Stream> write)
    {
        using var content = new MemoryStream();
        write(content);
        Do(new(Kind.Replace, name, 0, content.ToArray()));
    }

    public IDisposable? TryLock(string name) => new MemoryStream();

    public void Delete(string name) => _now.Remove(name);

    private void Do(Operation operation)
    {
        _operations.Add(operation);
        if (!_now.TryGetValue(operation.File, out var stream)) _now[operation.File] = stream = new MemoryStream();
        Apply(stream, operation);
    }

    private static void Apply(MemoryStream stream, Operation o)
    {
        switch (o.Kind)
        {
            case Kind.Replace:
                stream.SetLength(0);
                stream.Position = 0;
                stream.Write(o.Bytes!);
                break;
            case Kind.Write:
                stream.Position = o.Offset;
                stream.Write(o.Bytes!);
                break;
            case Kind.Length:
                stream.SetLength(o.Offset);
                break;
            default:
                break;
        }
    }

    private static MemoryStream Stream(byte[] bytes)
    {
        var stream = new MemoryStream();
        stream.Write(bytes);
        return stream;
    }

    private enum Kind
    {
        Write,
        Flush,
        Length,
        Replace,
    }

    private sealed record Operation(Kind Kind, string File, long Offset, byte[]? Bytes);

    private sealed class MemoryFile(CrashFiles files, string name) : IStoreFile
    {
        public long Length => files._now[name].Length;

        public int Read(long offset, Span<byte> buffer)
        {
            files._now[name].Position = Math.Min(offset, Length);
            return files._now[name].Read(buffer);
        }

        public void Write(long offset, ReadOnlySpan<byte> bytes) => files.Do(new(Kind.Write, name, offset, bytes.ToArray()));

        public void Flush() => files.Do(new(Kind.Flush, name, 0, null));

        public void SetLength(long length) => files.Do(new(Kind.Length, name, length, null));

        public void Dispose()
        {
            // Nothing is open in memory.
        }
    }
}
