using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb.Tests;

/// <summary>Appends from four tasks at once and prints the id of each fact when it was acknowledged.</summary>
internal static class EndlessWriter
{
    public static async Task<int> Run(string folder)
    {
        var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System, new(FactsPerCheckpoint: 50));
        await using var live = new LiveRegister(store);
        var round = live.Now.Count;
        var gate = new Lock();
        await Task.WhenAll(Enumerable.Range(0, 4).Select(task => Task.Run(async () =>
        {
            for (var i = 0; ; i++)
            {
                var fact = FactText.WriteDerived(new(Occurred.Unknown, "P1", $"task {task} after {round}", i), new DeviceNoted(new string('x', 200)), ["device:D" + (i % 9)]);
                await live.Submit([fact], "writer");
                lock (gate) Console.WriteLine(fact.Id);
            }
        })));
        return 0;
    }
}
