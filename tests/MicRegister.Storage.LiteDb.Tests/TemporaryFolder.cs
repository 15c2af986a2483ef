namespace MicRegister.Storage.LiteDb.Tests;

/// <summary>A folder that goes when the test is done.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("micregister-").FullName;

    public DiskFiles Files => new(Path);

    public string At(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
