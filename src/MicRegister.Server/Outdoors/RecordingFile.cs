using MicRegister.Documents.Recordings;
using MicRegister.Register.Events;

namespace MicRegister.Server.Outdoors;

/// <summary>What a recording says of itself, by its first part alone.</summary>
internal static class RecordingFile
{
    /// <summary>Headers stand before the sound; so much of a file is read.</summary>
    private const int Head = 1 << 20;

    /// <summary>Reads the head of a recording.</summary>
    /// <param name="name">Name of the file.</param>
    /// <param name="bytes">Its whole size.</param>
    /// <param name="content">Its content; closed here.</param>
    /// <param name="recorder">Recorder that made it.</param>
    /// <returns>What it says, and what is wrong; the SHA-256 is that of its head and size, since the whole is not read.</returns>
    public static async Task<(EventRecording File, string? Problem)> Read(string name, long bytes, Stream content, string recorder)
    {
        await using (content)
        {
            var head = new byte[(int)Math.Min(Head, bytes)];
            await content.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false);
            var mark = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData([.. head, .. BitConverter.GetBytes(bytes)]));
            var file = new EventRecording(name, bytes, mark, recorder, null, 0, []);
            try
            {
                var header = WaveHeader.Read(new Padded(head, bytes));
                var start = header.Broadcast is { } note
                    ? BextStart.Of(note.Day, note.Time, note.SamplesSinceMidnight, header.SampleRate)
                    : null;
                file = file with
                {
                    RecorderStart = start?.Shown,
                    Seconds = header.Seconds,
                    Channels = [.. Enumerable.Range(1, header.Channels)],
                };
                return (file, start is null ? "it carries no time of its recorder" : start.Shown is null ? start.Reason : null);
            }
            catch (RecordingException e)
            {
                return (file, e.Message);
            }
        }
    }

    /// <summary>A file of which only the head is known; what lies behind reads as silence.</summary>
    private sealed class Padded(byte[] head, long length) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => true;

        public override bool CanWrite => false;

        public override long Length => length;

        public override long Position { get; set; }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            var n = (int)Math.Clamp(length - Position, 0, buffer.Length);
            buffer[..n].Clear();
            if (Position < head.Length) head.AsSpan((int)Position, (int)Math.Min(n, head.Length - Position)).CopyTo(buffer);
            Position += n;
            return n;
        }

        public override long Seek(long offset, SeekOrigin origin) => Position = origin switch
        {
            SeekOrigin.Begin => offset,
            SeekOrigin.Current => Position + offset,
            _ => length + offset,
        };

        public override void Flush()
        {
            // Nothing is written.
        }

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
