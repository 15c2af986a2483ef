using System.Security.Cryptography;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Storage.LiteDb.Tests;

public sealed class StoreTests
{
    [Fact]
    public async Task A_second_writer_is_refused_with_the_servers_address_and_readers_go_on()
    {
        using var folder = new TemporaryFolder();
        await using (var live = new LiveRegister(JournalStore.Open(folder.Files, TimeProvider.System)))
        {
            ((JournalStore)live.Log).Announce("http://127.0.0.1:5400");
            await live.Submit([Note(1)], "desk");

            var refusal = Assert.Throws<StoreInUseException>(() => JournalStore.Open(folder.Files, TimeProvider.System));
            Assert.Equal("http://127.0.0.1:5400", refusal.Address);
            using var reader = ReadOnlyStore.Open(folder.Files)!;
            Assert.Equal(1, reader.Register.Count);
            await live.Submit([Note(2)], "desk");
            Assert.Equal(1, reader.Register.Count); // as it stood when it was opened
            using var later = ReadOnlyStore.Open(folder.Files)!;
            Assert.Equal(2, later.Register.Count);
            Assert.Equal(live.Log.Head, later.Head);
            Assert.Equal(later.Head.Chain, later.ChainAt(2));
            Assert.Null(later.ChainAt(3));
        }
        using var free = JournalStore.Open(folder.Files, TimeProvider.System);
        Assert.Equal(2, free.Head.Sequence);
    }

    [Fact]
    public void A_folder_without_a_journal_cannot_be_read()
    {
        using var folder = new TemporaryFolder();

        Assert.Null(ReadOnlyStore.Open(folder.Files));
        Assert.NotNull(ReadOnlyStore.Verify(folder.Files, TestContext.Current.CancellationToken).Fault);
    }

    [Theory]
    [InlineData("delete")]
    [InlineData("zeros")]
    [InlineData("noise")]
    [InlineData("half")]
    [InlineData("old log")]
    public async Task A_damaged_or_missing_index_is_made_again(string damage)
    {
        using var folder = new TemporaryFolder();
        await using (var live = new LiveRegister(JournalStore.Open(folder.Files, TimeProvider.System)))
        {
            await live.Submit([.. Enumerable.Range(1, 500).Select(Note)], "desk");
            await ((JournalStore)live.Log).IndexCaughtUp();
        }
        var path = folder.At("index.db");
        var bytes = File.ReadAllBytes(path);
        switch (damage)
        {
            case "delete": File.Delete(path); break;
            case "zeros": File.WriteAllBytes(path, new byte[bytes.Length]); break;
            case "noise": new Random(7).NextBytes(bytes.AsSpan(8192)); File.WriteAllBytes(path, bytes); break;
            case "half": File.WriteAllBytes(path, bytes[..(bytes.Length / 2)]); break;
            default: File.Delete(path); File.WriteAllBytes(folder.At("index-log.db"), bytes); break;
        }

        await using var again = new LiveRegister(JournalStore.Open(folder.Files, TimeProvider.System));

        Assert.Equal(500, again.Log.Find(new(Kind: "device-noted")).Count);
        Assert.Equal([7], again.Log.Find(new(Subject: "device:D7", From: new(2020, 1, 1))).Take(1));
        await ((JournalStore)again.Log).IndexCaughtUp();
        Assert.Equal(500, again.Log.Find(new(Author: "P1")).Count);
    }

    [Theory]
    [InlineData("delete")]
    [InlineData("flip")]
    [InlineData("half")]
    [InlineData("of another journal")]
    public async Task A_damaged_or_missing_checkpoint_is_made_again(string damage)
    {
        using var folder = new TemporaryFolder();
        await Filled(folder, 100);
        var path = folder.At("checkpoint");
        var bytes = File.ReadAllBytes(path);
        switch (damage)
        {
            case "delete": File.Delete(path); break;
            case "flip": bytes[bytes.Length / 2] ^= 1; File.WriteAllBytes(path, bytes); break;
            case "half": File.WriteAllBytes(path, bytes[..(bytes.Length / 2)]); break;
            default:
                using (var other = new TemporaryFolder())
                {
                    await Filled(other, 90);
                    File.Copy(other.At("checkpoint"), path, overwrite: true);
                }
                break;
        }

        using var store = JournalStore.Open(folder.Files, TimeProvider.System);

        Assert.Equal(0, store.TakenFromCheckpoint);
        Assert.Equal(100, store.Load().Count);
    }

    // Mark and place of a checkpoint stand before the image: its version, then the length of its fingerprint, 64, and that.
    [Fact]
    public async Task A_checkpoint_that_was_made_with_other_kinds_of_facts_is_made_again()
    {
        using var folder = new TemporaryFolder();
        await Filled(folder, 100);
        var path = folder.At("checkpoint");
        var bytes = File.ReadAllBytes(path);
        var mark = "MicRegister checkpoint 1\n".Length;
        var image = mark + sizeof(int) + sizeof(long) + JournalLine.ChainSize + (BitConverter.ToInt32(bytes, mark) * sizeof(long));
        Assert.Equal(64, bytes[image + sizeof(int)]);
        var at = image + sizeof(int) + 1;
        bytes[at] = bytes[at] == (byte)'0' ? (byte)'1' : (byte)'0';
        SHA256.HashData(bytes.AsSpan(0, bytes.Length - SHA256.HashSizeInBytes)).CopyTo(bytes.AsSpan(bytes.Length - SHA256.HashSizeInBytes));
        File.WriteAllBytes(path, bytes);

        using var store = JournalStore.Open(folder.Files, TimeProvider.System);

        Assert.Equal(0, store.TakenFromCheckpoint);
        var register = store.Load();
        Assert.Equal((100, "House"), (register.Count, register.State.Founded?.Name));
    }

    [Fact]
    public async Task A_start_from_a_checkpoint_gives_the_same_register_as_one_from_the_beginning()
    {
        using var folder = new TemporaryFolder();
        await Filled(folder, 100);
        await using (var live = new LiveRegister(JournalStore.Open(folder.Files, TimeProvider.System)))
            await live.Submit([Note(101), FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 999), new FactAnnulled(Note(5).Id.ToString(), "wrong"), ["device:D5"])], "desk");
        string quick, slow;
        using (var store = JournalStore.Open(folder.Files, TimeProvider.System))
        {
            Assert.Equal(100, store.TakenFromCheckpoint);
            quick = Dump(store.Load());
        }
        File.Delete(folder.At("checkpoint"));
        using (var store = JournalStore.Open(folder.Files, TimeProvider.System)) slow = Dump(store.Load());

        Assert.Equal(slow, quick);
    }

    [Fact]
    public void A_full_disk_stops_the_journal_and_what_was_acknowledged_stays()
    {
        var files = new FullDisk();
        var store = JournalStore.Open(files, TimeProvider.System);
        store.Append([new(Note(1), "desk")]);
        files.IsFull = true;

        Assert.Throws<StoreException>(() => store.Append([new(Note(2), "desk")]));
        files.IsFull = false;
        Assert.Throws<StoreException>(() => store.Append([new(Note(3), "desk")])); // stopped for good
        store.Dispose();

        using var again = JournalStore.Open(files, TimeProvider.System);
        Assert.Equal(1, again.Load().Count);
    }

    // CRC-32C of "123456789" is E3069283 (check value of the Castagnoli polynomial, seen in many public test suites), and of
    // 32 bytes of zeros 8A9136AA (RFC 3720, appendix B.4).
    [Fact]
    public void Checksums_are_those_of_the_standard()
    {
        Assert.Equal(0xE3069283u, JournalLine.Crc32C("123456789"u8));
        Assert.Equal(0x8A9136AAu, JournalLine.Crc32C(new byte[32]));
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\tb")]
    [InlineData("a\nb")]
    public void A_door_that_would_break_a_line_is_refused(string door) => Assert.Throws<ArgumentException>(() => JournalLine.CleanDoor(door));

    private static async Task Filled(TemporaryFolder folder, int facts)
    {
        var store = JournalStore.Open(folder.Files, TimeProvider.System);
        await using var live = new LiveRegister(store);
        // A register reads its own settings as soon as it is made, also from a checkpoint.
        var founded = FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 0), new RegisterFounded("R", "House", "UTC", []), [Subject.TheRegister]);
        await live.Submit([founded, .. Enumerable.Range(1, facts - 1).Select(Note)], "desk");
        store.Settle(live.Now, always: true);
    }

    private static string Dump(Register.Register register) =>
        $"{register.Digest} {register.Count} {register.State.Founded?.Name} {string.Join(' ', register.DeviceIds.Select(id => $"{id}: {string.Join(',', register.Device(id)!.Notes.Select(n => n.What.Text))}"))}";

    private static Fact Note(int i) => FactText.WriteDerived(new(Occurred.On(new DateOnly(2024, 1, 1).AddDays(i)), "P1", "desk", i), new DeviceNoted("note " + i), ["device:D" + i]);

    private sealed class FullDisk : IStoreFiles
    {
        private readonly CrashFiles _inner = new();

        public bool IsFull { get; set; }

        public string? Folder => null;

        public bool Exists(string name) => _inner.Exists(name);

        public IStoreFile OpenRead(string name) => _inner.OpenRead(name);

        public IStoreFile OpenWrite(string name) => new File(this, _inner.OpenWrite(name));

        public void Replace(string name, Action<Stream> write) => _inner.Replace(name, write);

        public IDisposable? TryLock(string name) => _inner.TryLock(name);

        public void Delete(string name) => _inner.Delete(name);

        private sealed class File(FullDisk disk, IStoreFile inner) : IStoreFile
        {
            public long Length => inner.Length;

            public int Read(long offset, Span<byte> buffer) => inner.Read(offset, buffer);

            public void Write(long offset, ReadOnlySpan<byte> bytes)
            {
                if (!disk.IsFull)
                {
                    inner.Write(offset, bytes);
                    return;
                }
                inner.Write(offset, bytes[..(bytes.Length / 2)]);
                throw new IOException("No space left on device");
            }

            public void Flush() => inner.Flush();

            public void SetLength(long length) => inner.SetLength(length);

            public void Dispose() => inner.Dispose();
        }
    }
}
