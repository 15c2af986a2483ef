using System.Buffers.Binary;
using System.Text;
using MicRegister.Documents.Recordings;

namespace MicRegister.Documents.Tests.Recordings;

/// <summary>Recordings made for tests, byte by byte from the published layouts.</summary>
internal static class MadeRecording
{
    /// <summary>A whole file.</summary>
    /// <param name="channels">Samples of each channel in parts of full scale.</param>
    /// <param name="rate">Samples a second.</param>
    /// <param name="format">How they are stored.</param>
    /// <param name="outer">RIFF, RF64 or BW64.</param>
    /// <param name="isExtensible">Whether the format is stated the long way.</param>
    /// <param name="broadcast">A `bext` chunk; null leaves it out.</param>
    public static byte[] Of(double[][] channels, int rate, SampleFormat format, string outer = "RIFF", bool isExtensible = false, byte[]? broadcast = null)
    {
        var bytes = format switch { SampleFormat.Pcm16 => 2, SampleFormat.Pcm24 => 3, SampleFormat.Float64 => 8, _ => 4 };
        var data = new byte[channels[0].Length * channels.Length * bytes];
        for (var i = 0; i < channels[0].Length; i++)
        {
            for (var c = 0; c < channels.Length; c++) Store(data.AsSpan(((i * channels.Length) + c) * bytes), channels[c][i], format);
        }
        using var file = new MemoryStream();
        void Text(string text) => file.Write(Encoding.ASCII.GetBytes(text));
        void Int(uint value) => file.Write(BitConverter.GetBytes(value));
        void Short(int value) => file.Write(BitConverter.GetBytes((ushort)value));
        var isLong = outer != "RIFF";
        Text(outer);
        Int(isLong ? 0xFFFFFFFF : (uint)(36 + data.Length));
        Text("WAVE");
        if (isLong)
        {
            Text("ds64");
            Int(28);
            file.Write(BitConverter.GetBytes((ulong)(72 + data.Length)));
            file.Write(BitConverter.GetBytes((ulong)data.Length));
            file.Write(BitConverter.GetBytes((ulong)channels[0].Length));
            Int(0);
        }
        if (broadcast is not null)
        {
            Text("bext");
            Int((uint)broadcast.Length);
            file.Write(broadcast);
        }
        Text("odd ");
        Int(3);
        file.Write([1, 2, 3, 0]); // an odd chunk has a byte of padding that its size does not count
        Text("fmt ");
        Int(isExtensible ? 40u : 16u);
        var tag = format is SampleFormat.Float32 or SampleFormat.Float64 ? 3 : 1;
        Short(isExtensible ? 0xFFFE : tag);
        Short(channels.Length);
        Int((uint)rate);
        Int((uint)(rate * channels.Length * bytes));
        Short(channels.Length * bytes);
        Short(bytes * 8);
        if (isExtensible)
        {
            Short(22);
            Short(bytes * 8);
            Int(0);
            Short(tag);
            file.Write([0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71]);
        }
        Text("data");
        Int(isLong ? 0xFFFFFFFF : (uint)data.Length);
        file.Write(data);
        return file.ToArray();
    }

    /// <summary>A tone with what may be wrong with it.</summary>
    public static double[] Tone(double seconds, int rate, double rms, double hertz, double driftHz = 0, double noise = 0, double second = 0, double offset = 0, int seed = 1)
    {
        var random = new Random(seed);
        var samples = new double[(int)(seconds * rate)];
        for (var i = 0; i < samples.Length; i++)
        {
            double t = (double)i / rate;
            // The frequency runs from hertz - drift/2 to hertz + drift/2, so that its mean is hertz.
            var phase = (2 * Math.PI * ((hertz * t) + (driftHz * ((t * t / (2 * seconds)) - (t / 2))))) + 0.7;
            samples[i] = offset + (Math.Sqrt(2) * rms * (Math.Sin(phase) + (second * Math.Sin(2 * phase)))) + (noise * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
        }
        return samples;
    }

    public static byte[] Broadcast(string description, string originator, string day, string time, ulong samples)
    {
        var bext = new byte[602];
        Encoding.ASCII.GetBytes(description, bext.AsSpan(0, 256));
        Encoding.ASCII.GetBytes(originator, bext.AsSpan(256, 32));
        Encoding.ASCII.GetBytes(day, bext.AsSpan(320, 10));
        Encoding.ASCII.GetBytes(time, bext.AsSpan(330, 8));
        BinaryPrimitives.WriteUInt64LittleEndian(bext.AsSpan(338), samples);
        return bext;
    }

    private static void Store(Span<byte> to, double value, SampleFormat format)
    {
        switch (format)
        {
            case SampleFormat.Pcm16: BinaryPrimitives.WriteInt16LittleEndian(to, (short)Math.Clamp(Math.Round(value * 32768), -32768, 32767)); break;
            case SampleFormat.Pcm24:
                var i = (int)Math.Clamp(Math.Round(value * 8388608), -8388608, 8388607);
                (to[0], to[1], to[2]) = ((byte)i, (byte)(i >> 8), (byte)(i >> 16));
                break;
            case SampleFormat.Pcm32: BinaryPrimitives.WriteInt32LittleEndian(to, (int)Math.Clamp(Math.Round(value * 2147483648), -2147483648, 2147483647)); break;
            case SampleFormat.Float32: BinaryPrimitives.WriteSingleLittleEndian(to, (float)value); break;
            default: BinaryPrimitives.WriteDoubleLittleEndian(to, value); break;
        }
    }
}
