using System.Buffers.Binary;
using System.Security.Cryptography;

namespace MicRegister.Register.Facts;

/// <summary>
/// Which facts a register holds, whatever their order: the sum, modulo 2^256, of the SHA-256 of each. The default is no fact.
/// </summary>
public readonly record struct SetDigest(ulong A, ulong B, ulong C, ulong D)
{
    public const int Size = 32;

    /// <summary>The digest of these facts and one more.</summary>
    public SetDigest With(ReadOnlySpan<byte> factBytes)
    {
        Span<byte> hash = stackalloc byte[Size];
        SHA256.HashData(factBytes, hash);
        return With(FromBytes(hash));
    }

    /// <summary>The digest of two sets that share no fact.</summary>
    public SetDigest With(SetDigest other)
    {
        var low = (UInt128)D + other.D;
        var next = (UInt128)C + other.C + (ulong)(low >> 64);
        var third = (UInt128)B + other.B + (ulong)(next >> 64);
        return new(unchecked(A + other.A + (ulong)(third >> 64)), (ulong)third, (ulong)next, (ulong)low);
    }

    /// <summary>The digest of these facts without some that are among them.</summary>
    /// <remarks>Modulo 2^256, -x is the complement of x and one more.</remarks>
    public SetDigest Without(SetDigest other) =>
        With(new SetDigest(~other.A, ~other.B, ~other.C, ~other.D)).With(new SetDigest(0, 0, 0, 1));

    /// <summary>Reads 32 big-endian bytes.</summary>
    public static SetDigest FromBytes(ReadOnlySpan<byte> bytes) => new(
        BinaryPrimitives.ReadUInt64BigEndian(bytes),
        BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]),
        BinaryPrimitives.ReadUInt64BigEndian(bytes[16..]),
        BinaryPrimitives.ReadUInt64BigEndian(bytes[24..]));

    /// <summary>Writes 32 big-endian bytes.</summary>
    public void CopyTo(Span<byte> destination)
    {
        BinaryPrimitives.WriteUInt64BigEndian(destination, A);
        BinaryPrimitives.WriteUInt64BigEndian(destination[8..], B);
        BinaryPrimitives.WriteUInt64BigEndian(destination[16..], C);
        BinaryPrimitives.WriteUInt64BigEndian(destination[24..], D);
    }

    public override string ToString() => $"{A:x16}{B:x16}{C:x16}{D:x16}";
}
