using System.Buffers.Binary;

namespace MicRegister.Documents.Labels;

/// <summary>What has to be known of a JPEG before it is unpacked.</summary>
internal static class JpegHeader
{
    /// <summary>
    /// Whether it comes in several passes, so that all of it is held while it is unpacked; true too where the header says nothing.
    /// </summary>
    /// <remarks>Frames SOF0 and SOF1 are of one pass, SOF2 is progressive (ITU-T T.81, 1992, table B.1, from memory).</remarks>
    public static bool IsProgressive(ReadOnlySpan<byte> photo)
    {
        var at = 2;
        while (at + 4 <= photo.Length && photo[at] == 0xFF)
        {
            var marker = photo[at + 1];
            if (marker == 0xFF) at++; // padding
            else if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC)) return marker > 0xC1;
            else at += 2 + BinaryPrimitives.ReadUInt16BigEndian(photo[(at + 2)..]);
        }
        return true;
    }
}
