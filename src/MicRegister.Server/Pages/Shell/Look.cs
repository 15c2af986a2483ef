using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// The one look of all pages: a quiet typeface with tabular figures, few colours with a meaning each. Plots and prints take theirs from
/// app.css.
/// </summary>
internal static class Look
{
    private static readonly string[] Typeface = ["Source Sans 3", "system-ui", "sans-serif"];

    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Primary = "#1d4a73",
            Secondary = "#55626f",
            Background = "#fbfaf7",
            Surface = "#ffffff",
            TextPrimary = "#16202a",
            TextSecondary = "#4a5764",
            Success = "#0a6b3d",
            Warning = "#8a5a00",
            Error = "#a3182a",
            Info = "#2a4d8f",
            LinesDefault = "#d5dbe1",
        },
        PaletteDark = new PaletteDark
        {
            Primary = "#8fc0ee",
            Secondary = "#a3afbb",
            Background = "#12181e",
            Surface = "#1a222a",
            TextPrimary = "#e8edf2",
            TextSecondary = "#b4bfca",
            Success = "#5fd39a",
            Warning = "#f0b84a",
            Error = "#ff8a94",
            Info = "#9ab8f5",
            LinesDefault = "#33404c",
        },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = Typeface, FontSize = "1.0625rem", LineHeight = "1.5", LetterSpacing = "normal" },
            Button = new ButtonTypography
            { FontFamily = Typeface, TextTransform = "none", FontWeight = "600", FontSize = "1rem", LetterSpacing = "normal" },
        },
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "4px" },
    };
}
