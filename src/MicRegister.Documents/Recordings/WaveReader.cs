using System.Buffers.Binary;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace MicRegister.Documents.Recordings;

/// <summary>Reads the samples of a recording, block by block, one channel after the other within a block.</summary>
public sealed class WaveReader
{
    private readonly Stream _stream;
    private readonly byte[] _bytes;

    /// <param name="stream">The recording; the reader does not close it.</param>
    /// <param name="header">Its header.</param>
    /// <param name="blockFrames">Most frames to be read at once.</param>
    public WaveReader(Stream stream, WaveHeader header, int blockFrames)
    {
        (_stream, Header) = (stream, header);
        _bytes = new byte[(blockFrames * header.FrameBytes) + Padding];
    }

    // A vector may be loaded beyond the last sample.
    private const int Padding = 64;

    public WaveHeader Header { get; }

    /// <summary>Goes to a frame.</summary>
    public void Seek(long frame) => _stream.Position = Header.DataStart + (frame * Header.FrameBytes);

    /// <summary>Takes frames from where the stream stands, to be asked for by <see cref="Channel"/>.</summary>
    /// <param name="frames">How many, at most the block's.</param>
    /// <exception cref="RecordingException">The file ends before them.</exception>
    public void Take(int frames)
    {
        var wanted = frames * Header.FrameBytes;
        if (_stream.ReadAtLeast(_bytes.AsSpan(0, wanted), wanted, throwOnEndOfStream: false) < wanted) throw new RecordingException("it ends before its samples do");
    }

    /// <summary>Samples of one channel of the frames that were taken.</summary>
    /// <param name="channel">Channel, from 0.</param>
    /// <param name="from">First frame of those taken.</param>
    /// <param name="to">As many samples as it holds, in parts of full scale.</param>
    public void Channel(int channel, int from, Span<double> to) => Decode(_bytes.AsSpan(from * Header.FrameBytes), channel, to.Length, to);

    /// <summary>Reads frames from where the stream stands.</summary>
    /// <param name="frames">How many, at most the block's.</param>
    /// <param name="to">One array a channel, in parts of full scale.</param>
    /// <exception cref="RecordingException">The file ends before them.</exception>
    public void Read(int frames, double[][] to)
    {
        Take(frames);
        for (var channel = 0; channel < Header.Channels; channel++) Channel(channel, 0, to[channel].AsSpan(0, frames));
    }

    private void Decode(ReadOnlySpan<byte> bytes, int channel, int frames, Span<double> to)
    {
        var (step, at) = (Header.FrameBytes, channel * Header.SampleBytes);
        switch (Header.Format)
        {
            case SampleFormat.Pcm16:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadInt16LittleEndian(bytes[at..]) * (1 / 32768.0);
                break;
            case SampleFormat.Pcm24 when Header.Channels == 1:
                Decode24(bytes, frames, to);
                break;
            case SampleFormat.Pcm24:
                for (var i = 0; i < frames; i++, at += step) to[i] = (BinaryPrimitives.ReadInt32LittleEndian(bytes[at..]) << 8 >> 8) * (1 / 8388608.0);
                break;
            case SampleFormat.Pcm32:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadInt32LittleEndian(bytes[at..]) * (1 / 2147483648.0);
                break;
            case SampleFormat.Float32:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadSingleLittleEndian(bytes[at..]);
                break;
            default:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadDoubleLittleEndian(bytes[at..]);
                break;
        }
    }

    // Four samples of three bytes each at once: into the upper bytes of four integers, then down with the sign.
    private static void Decode24(ReadOnlySpan<byte> source, int frames, Span<double> target)
    {
        var spread = Vector128.Create((byte)255, 0, 1, 2, 255, 3, 4, 5, 255, 6, 7, 8, 255, 9, 10, 11);
        var scale = Vector256.Create(1 / 8388608.0);
        var i = 0;
        for (; i + 4 <= frames; i += 4)
        {
            var four = Vector128.ShiftRightArithmetic(Vector128.Shuffle(Vector128.Create(source.Slice(3 * i, 16)), spread).AsInt32(), 8);
            // The same value either way: whole numbers of 24 bits are exact.
            var doubles = Avx.IsSupported ? Avx.ConvertToVector256Double(four) : Vector256.Create((double)four[0], four[1], four[2], four[3]);
            (doubles * scale).CopyTo(target[i..]);
        }
        for (; i < frames; i++) target[i] = (BinaryPrimitives.ReadInt32LittleEndian(source[(3 * i)..]) << 8 >> 8) * (1 / 8388608.0);
    }
}
