using System.Security.Cryptography;
using System.Text;
using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// Both palettes of <see cref="Look"/> in one style sheet, so that the first frame is right: a provider on the page knows only once it is
/// live whether the machine prefers dark.
/// </summary>
internal sealed class LookSheet : MudThemeProvider
{
    /// <summary>Name of the cookie by which a person says light or dark; without it the machine decides.</summary>
    public const string Cookie = "look";

    private static readonly Lazy<string> Sheet = new(Written);

    /// <summary>The sheet.</summary>
    public static string Text => Sheet.Value;

    /// <summary>Its address: another one when it changes, since browsers keep it.</summary>
    public static string Address { get; } = "look.css?v=" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)))[..12];

    /// <summary>What a request says about light and dark; null leaves it to the machine.</summary>
    public static string? Chosen(HttpRequest request) => request.Cookies[Cookie] is "light" or "dark" ? request.Cookies[Cookie] : null;

    /// <summary>Serves it.</summary>
    public static void Map(WebApplication app) => app.MapGet("/look.css", (HttpContext context) =>
    {
        context.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
        return Results.Text(Text, "text/css");
    });

    private static string Written()
    {
        var light = Names(Look.Theme);
        // Only what differs: sizes stand once, where a narrow screen can change them.
        var dark = string.Join(';', Names(Darkened(Look.Theme)).Split(';').Except(light.Split(';')));
        return $$"""
            :root{ {{light}} }
            @media (prefers-color-scheme:dark){ html:root:not([data-look=light]){ {{dark}} } }
            html:root[data-look=dark]{ {{dark}} }
            :root{ color-scheme:var(--mud-native-html-color-scheme) }
            @media print{ html:root,html:root[data-look=dark],html:root:not([data-look=light]){ {{light}} } }
            """;
    }

    // The library writes the light palette; what it wrote is names with values between the braces of one rule.
    private static string Names(MudTheme theme)
    {
        var text = new StringBuilder();
        new LookSheet { Theme = theme }.GenerateTheme(text);
        return text.ToString().Replace(":root{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal);
    }

    private static MudTheme Darkened(MudTheme theme)
    {
        var palette = new PaletteLight();
        foreach (var property in typeof(Palette).GetProperties().Where(p => p is { CanRead: true, CanWrite: true }))
            property.SetValue(palette, property.GetValue(theme.PaletteDark));
        return new MudTheme
        {
            PaletteLight = palette,
            Typography = theme.Typography,
            LayoutProperties = theme.LayoutProperties,
            Shadows = theme.Shadows,
            ZIndex = theme.ZIndex,
        };
    }
}
