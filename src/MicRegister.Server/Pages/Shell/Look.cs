using MudBlazor;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// The one look of all pages, paper and ink: warm ground, ink blue, hairlines, a quiet typeface with tabular figures, few colours with a
/// meaning each. Plots and prints take theirs from the same names, in app.css.
/// </summary>
internal static class Look
{
    private static readonly string[] Typeface = ["Source Sans 3", "system-ui", "sans-serif"];

    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = new PaletteLight
        {
            Background = "#f6f4ee",
            BackgroundGray = "#efece3",
            Surface = "#fffdf8",
            DrawerBackground = "#f6f4ee",
            DrawerText = "#1b2024",
            DrawerIcon = "#535a60",
            AppbarBackground = "#f6f4ee",
            AppbarText = "#1b2024",
            Primary = "#1f4b5f",
            PrimaryContrastText = "#ffffff",
            Secondary = "#535a60",
            TextPrimary = "#1b2024",
            TextSecondary = "#535a60",
            ActionDefault = "#535a60",
            Success = "#1d6b45",
            Warning = "#8a5300",
            Error = "#9e2430",
            Info = "#2b5a86",
            LinesDefault = "#ddd8cc",
            Divider = "#ddd8cc",
            LinesInputs = "#84867f",
            TableHover = "#f0ece1",
            TableLines = "#e4e0d5",
            OverlayDark = "rgba(27,32,36,0.4)",
        },
        PaletteDark = new PaletteDark
        {
            Background = "#191815",
            BackgroundGray = "#232220",
            Surface = "#21201c",
            DrawerBackground = "#191815",
            DrawerText = "#ece8de",
            DrawerIcon = "#b5b0a5",
            AppbarBackground = "#191815",
            AppbarText = "#ece8de",
            Primary = "#8ec5d6",
            PrimaryContrastText = "#10212a",
            Secondary = "#b5b0a5",
            TextPrimary = "#ece8de",
            TextSecondary = "#b5b0a5",
            ActionDefault = "#b5b0a5",
            Success = "#79cda0",
            Warning = "#eab560",
            Error = "#ff979c",
            Info = "#9bbdea",
            LinesDefault = "#38352f",
            Divider = "#38352f",
            LinesInputs = "#857f74",
            TableHover = "#292721",
            TableLines = "#302e29",
            OverlayDark = "rgba(8,7,5,0.5)",
        },
        Typography = new Typography
        {
            Default = new DefaultTypography { FontFamily = Typeface, FontSize = "1rem", LineHeight = "1.45", LetterSpacing = "normal" },
            H1 = new H1Typography { FontFamily = Typeface, FontSize = "1.625rem", FontWeight = "600", LetterSpacing = "normal" },
            H2 = new H2Typography { FontFamily = Typeface, FontSize = "1.125rem", FontWeight = "600", LetterSpacing = "normal" },
            H3 = new H3Typography { FontFamily = Typeface, FontSize = "1.0625rem", FontWeight = "600", LetterSpacing = "normal" },
            H4 = new H4Typography { FontFamily = Typeface, FontSize = "1rem", FontWeight = "600", LetterSpacing = "normal" },
            H5 = new H5Typography { FontFamily = Typeface, FontSize = "1rem", FontWeight = "600", LetterSpacing = "normal" },
            H6 = new H6Typography { FontFamily = Typeface, FontSize = "1.125rem", FontWeight = "600", LetterSpacing = "normal" },
            Subtitle1 = new Subtitle1Typography { FontFamily = Typeface, FontSize = "1rem", FontWeight = "400", LetterSpacing = "normal" },
            Body1 = new Body1Typography { FontFamily = Typeface, FontSize = "1rem", LineHeight = "1.45", LetterSpacing = "normal" },
            Body2 = new Body2Typography { FontFamily = Typeface, FontSize = ".969rem", LineHeight = "1.4", LetterSpacing = "normal" },
            Caption = new CaptionTypography { FontFamily = Typeface, FontSize = ".875rem", LetterSpacing = "normal" },
            Button = new ButtonTypography
            { FontFamily = Typeface, TextTransform = "none", FontWeight = "600", FontSize = "1rem", LetterSpacing = "normal" },
        },
        LayoutProperties = new LayoutProperties
        {
            DefaultBorderRadius = "2px",
            AppbarHeight = "52px",
            DrawerWidthLeft = "224px",
            DrawerMiniWidthLeft = "60px",
        },
        Shadows = new Shadow { Elevation = [.. Enumerable.Range(0, 26).Select(i => i <= 4 ? "none" : Floating)] },
    };

    // Paper has no shadows; what floats over it has one.
    private const string Floating = "0 1px 2px rgba(10,16,22,.1),0 8px 28px rgba(10,16,22,.14)";
}
