using MicRegister.Register;
using MicRegister.Storage.Contract;

namespace MicRegister.Storage.LiteDb.Tests;

public sealed class JournalStoreContractTests : FactLogContract, IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    protected override IFactLog Open() => JournalStore.Open(_folder.Files, TimeProvider.System);

    protected override Task CaughtUp(IFactLog log) => ((JournalStore)log).IndexCaughtUp();
}
