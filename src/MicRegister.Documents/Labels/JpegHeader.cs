using System.Buffers.Binary;

namespace MicRegister.Documents.Labels;

/// <summary>What has to be known of a JPEG before it is unpacked.</summary>
internal static class JpegHeader
{
    private const byte Fill = 0xFF, StartOfScan = 0xDA, FirstWithLength = 0xC0;

    /// <summary>
    /// Whether all of it is held while it is unpacked: it comes in several passes, or its colours one after the other; true too where the
    /// header says nothing, or something that a decoder may read otherwise.
    /// </summary>
    /// <remarks>
    /// Frames SOF0 and SOF1 are sequential, SOF2 is progressive; a scan that holds fewer components than the frame leaves others for later
    /// scans (ITU-T T.81, 1992, table B.1, B.2.2 and B.2.3, from memory).
    /// </remarks>
    public static bool IsHeldWhole(ReadOnlySpan<byte> photo)
    {
        int at = 2, components = 0;
        while (at + 4 <= photo.Length && photo[at] == Fill)
        {
            var marker = photo[at + 1];
            if (marker == Fill)
            {
                at++; // padding
                continue;
            }
            // Markers without a length have no place before the first scan.
            if (marker < FirstWithLength || marker is >= 0xD0 and <= 0xD9) return true;
            var length = BinaryPrimitives.ReadUInt16BigEndian(photo[(at + 2)..]);
            if (length < 2 || at + 2 + length > photo.Length) return true;
            if (marker == StartOfScan) return components == 0 || length < 3 || photo[at + 4] < components;
            if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                if (marker > 0xC1 || components > 0 || length < 8) return true;
                components = photo[at + 9];
            }
            at += 2 + length;
        }
        return true;
    }
}
