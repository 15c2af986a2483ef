using System.Collections.Immutable;
using System.Runtime.InteropServices;
using System.Text;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register;

/// <summary>
/// A register's keys as one binary text, so that a start need not read every fact. It can always be made again from the
/// facts; whoever keeps it guards it with a hash.
/// </summary>
public static class RegisterImage
{
    private const int Version = 4;

    /// <summary>Writes all but the facts themselves.</summary>
    public static void Write(Register register, Stream to)
    {
        using var writer = new BinaryWriter(to, Encoding.UTF8, leaveOpen: true);
        var catalog = register.Catalog;
        // The catalogue may grow meanwhile; what this register knows stands at its beginning.
        writer.Write(Version);
        writer.Write(BodyBounds.Fingerprint);
        writer.Write(register.Count);
        writer.Write(MemoryMarshal.AsBytes(catalog.Ids(register.Count)));
        writer.Write(MemoryMarshal.AsBytes(catalog.Keys(register.Count)));
        writer.Write(MemoryMarshal.AsBytes<int>(catalog.Sorted(register.Count)));
        Names(writer, catalog.KindNames());
        Names(writer, catalog.ClientNames());
        Span<byte> digest = stackalloc byte[SetDigest.Size];
        register.Digest.CopyTo(digest);
        writer.Write(digest);
        writer.Write(register.Corrections.Pointers.Count);
        foreach (var (sequence, pointer) in register.Corrections.Pointers)
        {
            writer.Write(sequence);
            writer.Write(MemoryMarshal.AsBytes<FactId>(new[] { pointer.Target }));
        }
        var timelines = register.Index.Timelines.ToList();
        writer.Write(timelines.Count);
        foreach (var (subject, timeline) in timelines)
        {
            writer.Write(subject);
            writer.Write(timeline.Count);
            writer.Write(MemoryMarshal.AsBytes(timeline.Entries));
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    /// <param name="from">The image, at its start.</param>
    /// <param name="source">The log that it was made from.</param>
    /// <exception cref="FormatException">It is of another version.</exception>
    public static Register Read(Stream from, IFactSource source)
    {
        using var reader = new BinaryReader(from, Encoding.UTF8, leaveOpen: true);
        if (reader.ReadInt32() != Version) throw new FormatException("The image is of another version.");
        // Under which timelines a fact stands follows from the kinds that are known and from what their bodies may hold.
        if (reader.ReadString() != BodyBounds.Fingerprint) throw new FormatException("The image was made with other kinds of facts.");
        var count = reader.ReadInt32();
        var ids = Array<FactId>(reader, count);
        var keys = Array<FactKey>(reader, count);
        var sorted = Array<int>(reader, count);
        var (kinds, clients) = (Names(reader), Names(reader));
        var digest = SetDigest.FromBytes(Array<byte>(reader, SetDigest.Size));
        var pointers = new List<(int, FactId)>();
        for (var i = reader.ReadInt32(); i > 0; i--) pointers.Add((reader.ReadInt32(), Array<FactId>(reader, 1)[0]));
        var timelines = ImmutableDictionary.CreateBuilder<string, Timeline>();
        for (var i = reader.ReadInt32(); i > 0; i--)
        {
            var subject = reader.ReadString();
            timelines.Add(subject, Timeline.FromSorted(Array<TimelineEntry>(reader, reader.ReadInt32())));
        }
        var catalog = new FactCatalog(ids, keys, kinds, clients, sorted);
        return new(catalog, count, new SubjectIndex(timelines.ToImmutable()), Corrections.None.With(pointers, catalog), digest, source);
    }

    private static void Names(BinaryWriter writer, IReadOnlyList<string> names)
    {
        writer.Write(names.Count);
        foreach (var name in names) writer.Write(name);
    }

    private static List<string> Names(BinaryReader reader) => [.. Enumerable.Range(0, reader.ReadInt32()).Select(_ => reader.ReadString())];

    private static T[] Array<T>(BinaryReader reader, int count)
        where T : unmanaged
    {
        var array = GC.AllocateUninitializedArray<T>(count);
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(array.AsSpan()));
        return array;
    }
}
