using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb.Tests;

public sealed class CrashTests
{
    /// <summary>Power cuts at 600 places in four manners: what was acknowledged is there, whole batches only, and it goes on.</summary>
    [Fact]
    public void A_power_cut_leaves_every_acknowledged_batch_and_no_half_one()
    {
        const int seed = 20261;
        var random = new Random(seed);
        var files = new CrashFiles();
        var acknowledged = new List<(int Operations, int Facts)>();
        Write(files, 0, 60, random, acknowledged);

        for (var i = 0; i < 600; i++)
        {
            var after = random.Next(1, files.Operations + 1);
            var mode = i % 4;
            var disk = CrashFiles.With(files.CrashState(after, random, mode));
            var acked = acknowledged.Where(a => a.Operations <= after).Select(a => a.Facts).DefaultIfEmpty(0).Max();

            using (var store = JournalStore.Open(disk, TimeProvider.System))
            {
                var register = store.Load();
                Assert.True(register.Count >= acked, $"seed {seed}, cut {i} after {after}, manner {mode}: {register.Count} facts, {acked} acknowledged");
                Assert.Contains(register.Count, acknowledged.Select(a => a.Facts).Append(0)); // whole batches
                Assert.Equal(Enumerable.Range(0, register.Count).Select(Number), store.ReadFrom(1).Select(l => ((DeviceNoted)l.Fact.Body).Text));
            }
            // It goes on: three more batches, then all is there after opening again.
            var more = new List<(int, int)>();
            var before = Count(disk);
            Write(disk, before, 3, random, more);
            Assert.Equal(more[^1].Item2, Count(disk));
            Assert.Null(ReadOnlyStore.Verify(disk, TestContext.Current.CancellationToken).Fault);
        }
    }

    [Fact]
    public void A_torn_tail_is_put_aside_and_not_thrown_away()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 3, new Random(1), []);
        File.AppendAllText(folder.At(JournalStore.JournalName), "deadbeef\t7\t7\t");

        using (var store = JournalStore.Open(folder.Files, TimeProvider.System)) Assert.True(store.Head.Sequence > 0);

        var torn = Assert.Single(Directory.GetFiles(folder.Path, "torn-after-*"));
        Assert.Equal("deadbeef\t7\t7\t", File.ReadAllText(torn));
    }

    /// <summary>One flipped bit anywhere in a closed journal is noticed: by the start, or by the check of what it took on trust.</summary>
    [Fact]
    public void A_flipped_bit_is_noticed()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 40, new Random(2), []);
        var whole = File.ReadAllBytes(folder.At(JournalStore.JournalName));
        var random = new Random(20262);
        for (var i = 0; i < 200; i++)
        {
            var flipped = whole.ToArray();
            flipped[random.Next(flipped.Length)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(folder.At(JournalStore.JournalName), flipped);

            Assert.NotNull(ReadOnlyStore.Verify(folder.Files, TestContext.Current.CancellationToken).Fault);
            Assert.NotNull(FaultFoundAtStart(folder));
            Assert.Equal(flipped, File.ReadAllBytes(folder.At(JournalStore.JournalName))); // nothing was changed
        }
        File.WriteAllBytes(folder.At(JournalStore.JournalName), whole);
        Assert.Null(ReadOnlyStore.Verify(folder.Files, TestContext.Current.CancellationToken).Fault);
    }

    [Fact]
    public void A_flipped_bit_before_the_checkpoint_is_found_by_the_check_behind_the_start()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 10, new Random(3), []);
        using (var store = JournalStore.Open(folder.Files, TimeProvider.System)) store.Settle(store.Load(), always: true);
        var journal = File.ReadAllBytes(folder.At(JournalStore.JournalName));
        journal[journal.Length / 3] ^= 4;
        File.WriteAllBytes(folder.At(JournalStore.JournalName), journal);

        using var again = JournalStore.Open(folder.Files, TimeProvider.System);

        Assert.True(again.TakenFromCheckpoint > 0);
        Assert.Contains("damaged behind fact", again.VerifyBeginning(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public void A_cut_journal_is_refused()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 5, new Random(4), []);
        var lines = File.ReadAllLines(folder.At(JournalStore.JournalName));
        File.WriteAllText(folder.At(JournalStore.JournalName), string.Join('\n', lines[..^1]) + "\n");

        var refusal = Assert.Throws<StoreException>(() => JournalStore.Open(folder.Files, TimeProvider.System));

        Assert.Contains("cut", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_journal_that_was_cut_before_its_checkpoint_is_refused()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 5, new Random(4), []);
        using (var store = JournalStore.Open(folder.Files, TimeProvider.System)) store.Settle(store.Load(), always: true);
        var lines = File.ReadAllLines(folder.At(JournalStore.JournalName));
        File.WriteAllText(folder.At(JournalStore.JournalName), string.Join('\n', lines[..^2]) + "\n");
        File.Delete(folder.At("head"));
        File.Delete(folder.At("index.db"));

        Assert.Contains("The checkpoint was made at fact", Assert.Throws<StoreException>(() => JournalStore.Open(folder.Files, TimeProvider.System)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_journal_of_another_register_is_refused()
    {
        using var folder = new TemporaryFolder();
        using var other = new TemporaryFolder();
        Write(folder.Files, 0, 5, new Random(4), []);
        Write(other.Files, 1000, 9, new Random(5), []);
        File.Copy(other.At(JournalStore.JournalName), folder.At(JournalStore.JournalName), overwrite: true);

        Assert.Contains("not of one register", Assert.Throws<StoreException>(() => JournalStore.Open(folder.Files, TimeProvider.System)).Message, StringComparison.Ordinal);
        Assert.Contains("not of one register", ReadOnlyStore.Verify(folder.Files, TestContext.Current.CancellationToken).Fault, StringComparison.Ordinal);
        Assert.Throws<StoreException>(() => ReadOnlyStore.Open(folder.Files));
    }

    [Fact]
    public async Task A_journal_that_was_cut_with_its_head_is_refused_for_its_index()
    {
        using var folder = new TemporaryFolder();
        Write(folder.Files, 0, 5, new Random(4), []);
        using (var store = JournalStore.Open(folder.Files, TimeProvider.System)) await store.IndexCaughtUp();
        var lines = File.ReadAllLines(folder.At(JournalStore.JournalName));
        File.WriteAllText(folder.At(JournalStore.JournalName), lines[0].Split('\t')[2] == "1" ? lines[0] + "\n" : "");
        File.Delete(folder.At("head"));

        var refusal = Assert.Throws<StoreException>(() => JournalStore.Open(folder.Files, TimeProvider.System));

        Assert.Contains("The index knows", refusal.Message, StringComparison.Ordinal);
    }

    internal static string Number(int i) => "note " + i;

    private static string? FaultFoundAtStart(TemporaryFolder folder)
    {
        try
        {
            using var store = JournalStore.Open(folder.Files, TimeProvider.System);
            return store.VerifyBeginning(TestContext.Current.CancellationToken);
        }
        catch (StoreException e)
        {
            return e.Message;
        }
    }

    private static int Count(IStoreFiles files)
    {
        using var store = JournalStore.Open(files, TimeProvider.System);
        return store.Load().Count;
    }

    /// <summary>Appends batches of 1 to 6 numbered notes and says after each how many operations and facts there were.</summary>
    private static void Write(IStoreFiles files, int from, int batches, Random random, List<(int Operations, int Facts)> acknowledged)
    {
        using var store = JournalStore.Open(files, TimeProvider.System, new(FactsPerCheckpoint: 40));
        var register = store.Load();
        for (var b = 0; b < batches; b++)
        {
            var size = random.Next(1, 7);
            List<Fact> facts = [.. Enumerable.Range(from, size).Select(i => FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", i), new DeviceNoted(Number(i)), ["device:D1"]))];
            store.Append([.. facts.Select(f => new IncomingFact(f, "test"))]);
            register = register.With(facts);
            from += size;
            acknowledged.Add(((files as CrashFiles)?.Operations ?? 0, from));
            store.Settle(register);
        }
    }
}
