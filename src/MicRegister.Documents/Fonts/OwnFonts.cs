using PdfSharp.Fonts;

namespace MicRegister.Documents.Fonts;

/// <summary>The project's typeface, embedded: no machine's fonts are asked.</summary>
internal sealed class OwnFonts : IFontResolver
{
    public const string Family = "Source Sans 3";

    public FontResolverInfo ResolveTypeface(string familyName, bool bold, bool italic) => new(bold ? "source-sans-3-600.ttf" : "source-sans-3-400.ttf");

    /// <summary>The regular face as it is.</summary>
    public static byte[] Regular => Face("source-sans-3-400.ttf");

    public byte[] GetFont(string faceName) => Face(faceName);

    private static byte[] Face(string faceName)
    {
        using var stream = typeof(OwnFonts).Assembly.GetManifestResourceStream(faceName) ?? throw new InvalidOperationException($"The font {faceName} is not embedded.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
