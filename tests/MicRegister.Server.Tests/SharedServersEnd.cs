[assembly: AssemblyFixture(typeof(MicRegister.Server.Tests.SharedServersEnd))]

namespace MicRegister.Server.Tests;

/// <summary>Ends the servers that tests shared, after the last one.</summary>
public sealed class SharedServersEnd : IAsyncDisposable
{
    public ValueTask DisposeAsync() => ServerUnderTest.EndReading();
}
