using System.Runtime.InteropServices;
using System.Security.Cryptography;
using MicRegister.Register;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// The register's keys and the journal's offsets at some sequence, with a SHA-256 over all of it, so that a start reads only what
/// came later. Whatever is wrong with it, it is thrown away and made again.
/// </summary>
internal static class Checkpoint
{
    public const string Name = "checkpoint";
    private static ReadOnlySpan<byte> Mark => "MicRegister checkpoint 1\n"u8;

    public static void Write(IStoreFiles files, Register.Register register, JournalPlace place, ReadOnlySpan<long> offsets)
    {
        var kept = offsets[..place.Sequence].ToArray();
        files.Replace(Name, stream =>
        {
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            using var hashing = new HashingStream(stream, hash);
            hashing.Write(Mark);
            hashing.Write(BitConverter.GetBytes(place.Sequence));
            hashing.Write(BitConverter.GetBytes(place.Offset));
            hashing.Write(place.Chain);
            hashing.Write(MemoryMarshal.AsBytes<long>(kept));
            RegisterImage.Write(register, hashing);
            stream.Write(hash.GetHashAndReset());
        });
    }

    /// <summary>Reads the checkpoint; null where there is none that can be trusted.</summary>
    /// <param name="files">The folder.</param>
    /// <param name="reader">Gets the offsets, since a register reads its own settings when it is made.</param>
    /// <param name="stands">Whether the journal holds the checkpoint's place.</param>
    public static (Register.Register Register, JournalPlace Place)? Read(IStoreFiles files, JournalReader reader, Func<JournalPlace, long[], bool> stands)
    {
        if (!files.Exists(Name)) return null;
        using var file = files.OpenRead(Name);
        var bytes = GC.AllocateUninitializedArray<byte>(checked((int)file.Length));
        for (var at = 0; at < bytes.Length;)
        {
            var got = file.Read(at, bytes.AsSpan(at));
            if (got == 0) return null;
            at += got;
        }
        var content = bytes.Length - SHA256.HashSizeInBytes;
        if (content < Mark.Length + 44 || !bytes.AsSpan(0, Mark.Length).SequenceEqual(Mark)) return null;
        if (!SHA256.HashData(bytes.AsSpan(0, content)).AsSpan().SequenceEqual(bytes.AsSpan(content))) return null;

        using var stream = new MemoryStream(bytes, Mark.Length, content - Mark.Length, writable: false);
        var head = new byte[12 + JournalLine.ChainSize];
        stream.ReadExactly(head);
        var place = new JournalPlace(BitConverter.ToInt32(head), BitConverter.ToInt64(head, 4), head[12..]);
        var offsets = new long[place.Sequence];
        stream.ReadExactly(MemoryMarshal.AsBytes(offsets.AsSpan()));
        if (!stands(place, offsets)) return null;
        reader.Begin(offsets, place.Offset);
        try
        {
            return (RegisterImage.Read(stream, reader), place);
        }
        catch (FormatException)
        {
            reader.Begin([], 0);
            return null; // of another version: made again from the journal
        }
    }

    private sealed class HashingStream(Stream inner, IncrementalHash hash) : Stream
    {
        public override bool CanRead => false;

        public override bool CanSeek => false;

        public override bool CanWrite => true;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            hash.AppendData(buffer);
            inner.Write(buffer);
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override void Flush()
        {
            // The file behind it is flushed by whoever opened it.
        }

        public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();
    }
}
