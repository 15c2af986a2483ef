using System.Buffers.Binary;
using System.Runtime.Intrinsics;

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

    /// <summary>Reads frames from where the stream stands.</summary>
    /// <param name="frames">How many, at most the block's.</param>
    /// <param name="to">One array a channel, in parts of full scale.</param>
    /// <exception cref="RecordingException">The file ends before them.</exception>
    public void Read(int frames, double[][] to)
    {
        var wanted = frames * Header.FrameBytes;
        if (_stream.ReadAtLeast(_bytes.AsSpan(0, wanted), wanted, throwOnEndOfStream: false) < wanted) throw new RecordingException("it ends before its samples do");
        for (var channel = 0; channel < Header.Channels; channel++) Decode(_bytes, channel, frames, to[channel]);
    }

    private void Decode(byte[] bytes, int channel, int frames, double[] to)
    {
        var (step, at) = (Header.FrameBytes, channel * Header.SampleBytes);
        switch (Header.Format)
        {
            case SampleFormat.Pcm16:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadInt16LittleEndian(bytes.AsSpan(at)) * (1 / 32768.0);
                break;
            case SampleFormat.Pcm24 when Header.Channels == 1:
                Decode24(bytes, frames, to);
                break;
            case SampleFormat.Pcm24:
                for (var i = 0; i < frames; i++, at += step) to[i] = (BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at)) << 8 >> 8) * (1 / 8388608.0);
                break;
            case SampleFormat.Pcm32:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(at)) * (1 / 2147483648.0);
                break;
            case SampleFormat.Float32:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadSingleLittleEndian(bytes.AsSpan(at));
                break;
            default:
                for (var i = 0; i < frames; i++, at += step) to[i] = BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(at));
                break;
        }
    }

    // Four samples of three bytes each at once: into the upper bytes of four integers, then down with the sign.
    private static void Decode24(byte[] bytes, int frames, double[] to)
    {
        var spread = Vector128.Create((byte)255, 0, 1, 2, 255, 3, 4, 5, 255, 6, 7, 8, 255, 9, 10, 11);
        var scale = Vector256.Create(1 / 8388608.0);
        ReadOnlySpan<byte> source = bytes;
        Span<double> target = to;
        var i = 0;
        for (; i + 4 <= frames; i += 4)
        {
            var four = Vector128.ShiftRightArithmetic(Vector128.Shuffle(Vector128.Create(source.Slice(3 * i, 16)), spread).AsInt32(), 8);
            var (low, high) = Vector128.Widen(four);
            (Vector256.ConvertToDouble(Vector256.Create(low, high)) * scale).CopyTo(target[i..]);
        }
        for (; i < frames; i++) to[i] = (BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(3 * i)) << 8 >> 8) * (1 / 8388608.0);
    }
}
