namespace MicRegister.Storage.LiteDb;

/// <summary>
/// All that the store asks of a folder, in one place, so that a test can stand in for the disk and replay what a crash leaves.
/// </summary>
public interface IStoreFiles
{
    /// <summary>Path of the folder for parts that open files themselves; null where there is none.</summary>
    string? Folder { get; }

    bool Exists(string name);

    /// <summary>Opens a file to read at any place; it may grow meanwhile.</summary>
    IStoreFile OpenRead(string name);

    /// <summary>Opens a file to write, making it where it is missing.</summary>
    IStoreFile OpenWrite(string name);

    /// <summary>Puts whole content under a name: after a crash the old or the new one is there, nothing between.</summary>
    void Replace(string name, Action<Stream> write);

    /// <summary>Takes the lock that one writer holds.</summary>
    /// <returns>Null where another holds it.</returns>
    IDisposable? TryLock(string name);

    void Delete(string name);
}

/// <summary>One open file.</summary>
public interface IStoreFile : IDisposable
{
    long Length { get; }

    int Read(long offset, Span<byte> buffer);

    void Write(long offset, ReadOnlySpan<byte> bytes);

    /// <summary>Returns when all that was written is on the disk.</summary>
    void Flush();

    void SetLength(long length);
}
