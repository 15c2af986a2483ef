using System.Buffers.Binary;
using System.Text;

namespace MicRegister.Documents.Recordings;

/// <summary>What the header of a recording says, checked against the file itself.</summary>
/// <param name="Channels">1 to 256.</param>
/// <param name="SampleRate">Samples a second of each channel.</param>
/// <param name="Format">How samples are stored.</param>
/// <param name="DataStart">Where samples begin in the file, in bytes.</param>
/// <param name="Frames">Samples of each channel.</param>
/// <param name="Broadcast">What a recorder wrote about the recording; null where it did not.</param>
/// <remarks>RIFF and RF64 / BW64 (EBU Tech 3306, ITU-R BS.2088), format tags 1, 3 and extensible, `bext` of EBU Tech 3285.</remarks>
public sealed record WaveHeader(int Channels, int SampleRate, SampleFormat Format, long DataStart, long Frames, BroadcastNote? Broadcast)
{
    /// <summary>More chunks than this before the samples are no recording but a trap.</summary>
    private const int MostChunks = 1_000;

    private const uint SizeElsewhere = 0xFFFFFFFF;
    private static readonly byte[] ExtensibleTail = [0x00, 0x00, 0x00, 0x00, 0x10, 0x00, 0x80, 0x00, 0x00, 0xAA, 0x00, 0x38, 0x9B, 0x71];

    /// <summary>Bytes of one sample of one channel.</summary>
    public int SampleBytes => Bytes(Format);

    /// <summary>Bytes of one sample of all channels.</summary>
    public int FrameBytes => SampleBytes * Channels;

    public double Seconds => (double)Frames / SampleRate;

    /// <summary>Reads a header.</summary>
    /// <param name="stream">A stream that can seek.</param>
    /// <exception cref="RecordingException">It is no recording of a kind that is read, or its header does not fit the file.</exception>
    public static WaveHeader Read(Stream stream)
    {
        var length = stream.Length;
        Span<byte> head = stackalloc byte[12];
        stream.Position = 0;
        if (length < 12 || stream.ReadAtLeast(head, 12, throwOnEndOfStream: false) < 12) throw new RecordingException($"it has {length} bytes; a recording begins with 12 bytes of header");
        var outer = Ascii(head[..4]);
        if (outer is not ("RIFF" or "RF64" or "BW64") || Ascii(head[8..12]) != "WAVE") throw new RecordingException("it is no WAV, RF64 or BW64 recording");

        (long DataSize, bool IsThere) sizes = (0, false);
        (int Channels, int Rate, SampleFormat Format)? format = null;
        BroadcastNote? note = null;
        Span<byte> chunk = stackalloc byte[8];
        long at = 12;
        for (var count = 0; count < MostChunks; count++)
        {
            if (at + 8 > length) throw new RecordingException("it ends before its samples: no data chunk is there");
            stream.Position = at;
            if (stream.ReadAtLeast(chunk, 8, throwOnEndOfStream: false) < 8) throw new RecordingException("it ends before its samples: no data chunk is there");
            var (id, stated) = (Ascii(chunk[..4]), BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]));
            at += 8;
            if (id == "data")
            {
                if (format is not { } f) throw new RecordingException("its samples come before their format");
                return Finish(f, at, DataSize(stated, outer, sizes, length - at), length - at, note);
            }
            if (stated > length - at) throw new RecordingException($"its chunk '{id}' states {stated} bytes, {length - at} are left");
            if (id == "ds64" && outer != "RIFF")
            {
                var ds = Take(stream, at, stated, 28, "ds64");
                var dataSize = BinaryPrimitives.ReadUInt64LittleEndian(ds.AsSpan(8));
                if (dataSize > long.MaxValue) throw new RecordingException($"its chunk 'ds64' states {dataSize} bytes of samples");
                sizes = ((long)dataSize, true);
            }
            else if (id == "fmt ")
            {
                format = Format_(Take(stream, at, stated, 16, "fmt", most: 64));
            }
            else if (id == "bext")
            {
                note = BroadcastNote.Read(Take(stream, at, stated, 602, "bext", most: 602));
            }
            at += stated + (stated & 1);
        }
        throw new RecordingException($"more than {MostChunks} chunks stand before its samples");
    }

    private static long DataSize(uint stated, string outer, (long DataSize, bool IsThere) sizes, long left)
    {
        if (outer != "RIFF" && stated == SizeElsewhere) return sizes.IsThere ? sizes.DataSize : throw new RecordingException("its size stands in a chunk 'ds64' that is not there");
        if (stated == SizeElsewhere) throw new RecordingException("it does not state how long it is; the recorder may have stopped before it was finished");
        return stated > left ? throw new RecordingException($"it is cut: its header states {stated} bytes of samples, {left} are there") : stated;
    }

    private static WaveHeader Finish((int Channels, int Rate, SampleFormat Format) f, long start, long size, long left, BroadcastNote? note)
    {
        if (size > left) throw new RecordingException($"it is cut: its header states {size} bytes of samples, {left} are there");
        var frame = Bytes(f.Format) * f.Channels;
        return size < frame ? throw new RecordingException("it holds no samples") : new(f.Channels, f.Rate, f.Format, start, size / frame, note);
    }

    private static (int, int, SampleFormat) Format_(byte[] fmt)
    {
        var tag = BinaryPrimitives.ReadUInt16LittleEndian(fmt);
        int channels = BinaryPrimitives.ReadUInt16LittleEndian(fmt.AsSpan(2)), block = BinaryPrimitives.ReadUInt16LittleEndian(fmt.AsSpan(12)), bits = BinaryPrimitives.ReadUInt16LittleEndian(fmt.AsSpan(14));
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(fmt.AsSpan(4));
        if (tag == 0xFFFE)
        {
            if (fmt.Length < 40 || !fmt.AsSpan(26, 14).SequenceEqual(ExtensibleTail)) throw new RecordingException("its extended format is not known");
            tag = BinaryPrimitives.ReadUInt16LittleEndian(fmt.AsSpan(24));
        }
        if (channels is < 1 or > 256) throw new RecordingException($"it states {channels} channels; 1 to 256 are read");
        if (rate is < 1_000 or > 4_000_000) throw new RecordingException($"it states {rate} samples a second; 1000 to 4000000 are read");
        SampleFormat format = (tag, bits) switch
        {
            (1, 16) => SampleFormat.Pcm16,
            (1, 24) => SampleFormat.Pcm24,
            (1, 32) => SampleFormat.Pcm32,
            (3, 32) => SampleFormat.Float32,
            (3, 64) => SampleFormat.Float64,
            _ => throw new RecordingException($"its samples have format {tag} with {bits} bits; PCM of 16, 24 or 32 bits and floating point of 32 or 64 are read"),
        };
        return block == Bytes(format) * channels ? (channels, (int)rate, format) : throw new RecordingException($"it states {block} bytes for a sample of all channels where {channels} channels of {bits} bits take {Bytes(format) * channels}");
    }

    private static byte[] Take(Stream stream, long at, uint stated, int least, string name, int most = 28)
    {
        if (stated < least) throw new RecordingException($"its chunk '{name}' has {stated} bytes; at least {least} belong there");
        var bytes = new byte[Math.Min(stated, Math.Max(least, most))];
        stream.Position = at;
        return stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) == bytes.Length ? bytes : throw new RecordingException($"it ends within its chunk '{name}'");
    }

    private static int Bytes(SampleFormat format) => format switch
    {
        SampleFormat.Pcm16 => 2,
        SampleFormat.Pcm24 => 3,
        SampleFormat.Float64 => 8,
        _ => 4,
    };

    private static string Ascii(ReadOnlySpan<byte> bytes)
    {
        // What is no letter is shown as a point: a name goes into a message.
        var text = new StringBuilder(bytes.Length);
        foreach (var b in bytes) text.Append(b is >= 32 and < 127 ? (char)b : '.');
        return text.ToString();
    }
}
