using System.Security.Cryptography;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>Attachments as files named by their SHA-256.</summary>
internal sealed class AttachmentFolder(IStoreFiles files)
{
    public string Keep(Stream content)
    {
        var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        int got;
        while ((got = content.Read(buffer)) > 0)
        {
            bytes.Write(buffer, 0, got);
            if (bytes.Length > IFactLog.MaxAttachmentBytes) throw new ArgumentException($"An attachment has at most {IFactLog.MaxAttachmentBytes / (1024 * 1024)} MB.", nameof(content));
        }
        var sha = Convert.ToHexStringLower(SHA256.HashData(bytes.GetBuffer().AsSpan(0, (int)bytes.Length)));
        if (!files.Exists(Name(sha))) files.Replace(Name(sha), s => s.Write(bytes.GetBuffer(), 0, (int)bytes.Length));
        return sha;
    }

    public Stream? Open(string sha256)
    {
        if (sha256.Length != 64 || !sha256.All(char.IsAsciiHexDigitLower) || !files.Exists(Name(sha256))) return null;
        using var file = files.OpenRead(Name(sha256));
        var bytes = new byte[file.Length];
        for (var at = 0; at < bytes.Length;)
        {
            var got = file.Read(at, bytes.AsSpan(at));
            if (got == 0) break;
            at += got;
        }
        if (Convert.ToHexStringLower(SHA256.HashData(bytes)) != sha256) throw new StoreException($"The attachment {sha256} is damaged.");
        return new MemoryStream(bytes, writable: false);
    }

    private static string Name(string sha) => Path.Combine("attachments", sha[..2], sha[2..]);
}
