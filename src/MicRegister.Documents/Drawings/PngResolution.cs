using System.Buffers.Binary;

namespace MicRegister.Documents.Drawings;

/// <summary>Writes a resolution into a PNG file, so that it is printed in its size.</summary>
internal static class PngResolution
{
    private const int HeaderEnd = 8 + 25; // signature and IHDR

    /// <summary>Copies a PNG with a pHYs chunk behind its header.</summary>
    /// <remarks>
    /// PNG 1.2, pHYs (seen): two numbers of 32 bits, dots a metre in both directions, unit 1. ISO/IEC 15948:2004, 11.3.5.3 (number of the
    /// clause from memory, unchecked).
    /// </remarks>
    public static void Write(ReadOnlySpan<byte> png, int dotsPerInch, Stream to)
    {
        Span<byte> chunk = stackalloc byte[21];
        BinaryPrimitives.WriteUInt32BigEndian(chunk, 9);
        "pHYs"u8.CopyTo(chunk[4..]);
        var perMetre = (uint)Math.Round(dotsPerInch / 0.0254);
        BinaryPrimitives.WriteUInt32BigEndian(chunk[8..], perMetre);
        BinaryPrimitives.WriteUInt32BigEndian(chunk[12..], perMetre);
        chunk[16] = 1;
        BinaryPrimitives.WriteUInt32BigEndian(chunk[17..], Crc32(chunk[4..17]));
        to.Write(png[..HeaderEnd]);
        to.Write(chunk);
        to.Write(png[HeaderEnd..]);
    }

    private static uint Crc32(ReadOnlySpan<byte> bytes)
    {
        var crc = 0xffffffffu;
        foreach (var b in bytes)
        {
            crc ^= b;
            for (var i = 0; i < 8; i++) crc = (crc & 1) != 0 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
        }
        return ~crc;
    }
}
