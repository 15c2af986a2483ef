using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace MicRegister.Storage.LiteDb;

/// <summary>A folder on a disk.</summary>
public sealed partial class DiskFiles : IStoreFiles
{
    private readonly string _folder;

    /// <param name="folder">The folder; it is made where it is missing.</param>
    public DiskFiles(string folder)
    {
        _folder = Path.GetFullPath(folder);
        Directory.CreateDirectory(_folder);
    }

    public string? Folder => _folder;

    public bool Exists(string name) => File.Exists(At(name));

    public IStoreFile OpenRead(string name) => new DiskFile(File.OpenHandle(At(name), FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete));

    public IStoreFile OpenWrite(string name)
    {
        var isNew = !Exists(name);
        var file = new DiskFile(File.OpenHandle(At(name), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete));
        if (isNew) FlushFolder(Path.GetDirectoryName(At(name))!);
        return file;
    }

    public void Replace(string name, Action<Stream> write)
    {
        var path = At(name);
        var folder = Path.GetDirectoryName(path)!;
        Directory.CreateDirectory(folder);
        var temporary = path + ".new";
        using (var stream = new FileStream(temporary, FileMode.Create, FileAccess.Write, FileShare.None, 1 << 16))
        {
            write(stream);
            stream.Flush(flushToDisk: true);
        }
        File.Move(temporary, path, overwrite: true);
        FlushFolder(folder);
    }

    public IDisposable? TryLock(string name)
    {
        try
        {
            return new FileStream(At(name), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e) when (e is not (FileNotFoundException or DirectoryNotFoundException or PathTooLongException))
        {
            return null;
        }
    }

    public void Delete(string name) => File.Delete(At(name));

    private string At(string name) => Path.Combine(_folder, name);

    // A new name is safe only when its folder is on the disk too; .NET has no call for that.
    private static void FlushFolder(string folder)
    {
        if (!OperatingSystem.IsLinux() && !OperatingSystem.IsMacOS()) return;
        var descriptor = Native.Open(folder, 0);
        if (descriptor < 0) throw new IOException($"The folder {folder} cannot be opened to be flushed (error {Marshal.GetLastPInvokeError()}).");
        var failed = Native.FSync(descriptor) != 0;
        var error = Marshal.GetLastPInvokeError();
        _ = Native.Close(descriptor);
        if (failed) throw new IOException($"The folder {folder} cannot be flushed (error {error}).");
    }

    private static partial class Native
    {
        [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static partial int Open(string path, int flags);

        [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static partial int FSync(int descriptor);

        [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static partial int Close(int descriptor);

        [LibraryImport("libc", EntryPoint = "fdatasync", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static partial int FDataSync(SafeFileHandle descriptor);
    }

    private sealed class DiskFile(SafeFileHandle handle) : IStoreFile
    {
        public long Length => RandomAccess.GetLength(handle);

        public int Read(long offset, Span<byte> buffer) => RandomAccess.Read(handle, buffer, offset);

        public void Write(long offset, ReadOnlySpan<byte> bytes) => RandomAccess.Write(handle, bytes, offset);

        public void Flush()
        {
            // On Linux fdatasync saves the second write for times that nobody reads; length and content are on the disk.
            if (!OperatingSystem.IsLinux()) RandomAccess.FlushToDisk(handle);
            else if (Native.FDataSync(handle) != 0) throw new IOException($"The disk did not take the data (error {Marshal.GetLastPInvokeError()}).");
        }

        public void SetLength(long length) => RandomAccess.SetLength(handle, length);

        public void Dispose() => handle.Dispose();
    }
}
