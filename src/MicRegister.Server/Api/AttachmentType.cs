namespace MicRegister.Server.Api;

/// <summary>What an attachment is, by its first bytes: a name says nothing.</summary>
internal static class AttachmentType
{
    /// <summary>What is taken, in words.</summary>
    public const string Allowed = "PDF, PNG, JPEG, plain text (CSV, XML) and office files";

    private const int Looked = 4096;

    /// <summary>Ending of its name.</summary>
    /// <returns>Null for what is not taken.</returns>
    public static string? Of(ReadOnlySpan<byte> content)
    {
        if (content.StartsWith("%PDF-"u8)) return ".pdf";
        if (content.StartsWith(new byte[] { 0x89, (byte)'P', (byte)'N', (byte)'G' })) return ".png";
        if (content.StartsWith(new byte[] { 0xFF, 0xD8, 0xFF })) return ".jpg";
        if (content.StartsWith("PK\u0003\u0004"u8)) return ".zip";
        var first = content[..Math.Min(Looked, content.Length)];
        // UTF-16 has noughts and says so at its begin.
        var isWide = first.StartsWith(new byte[] { 0xFF, 0xFE }) || first.StartsWith(new byte[] { 0xFE, 0xFF });
        return isWide || (first.Length > 0 && !first.ContainsAny((byte)0, (byte)0x7F) && !first.StartsWith("MZ"u8)) ? ".txt" : null;
    }
}
