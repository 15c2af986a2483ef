using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>The mark of a browser from which an account came in before.</summary>
public sealed class KnownDeviceTests
{
    private const string Cookie = "register-known=";

    private readonly EphemeralDataProtectionProvider _keys = new();

    [Fact]
    public void A_mark_is_of_one_account_however_its_name_is_written()
    {
        var cookie = Kept("Olive", null);

        var mark = Of(cookie, "Olive");

        Assert.Matches("^[0-9a-f]{24}$", mark);
        Assert.Equal(mark, Of(cookie, " OLIVE "));
        Assert.Null(Of(cookie, "Hanna"));
        Assert.NotEqual(mark, Of(Kept("Olive", null), "Olive"));
        Assert.Equal(mark, Of(Kept("Olive", mark), "Olive")); // the next sign-in keeps it
        Assert.Equal(mark, Of(Kept("Hanna", mark), "Hanna")); // a browser is then another account's
    }

    [Fact]
    public void What_another_server_gave_or_somebody_made_up_is_no_mark()
    {
        var cookie = Kept("Olive", null);

        Assert.Null(Of(null, "Olive"));
        Assert.Null(Of(Cookie, "Olive"));
        Assert.Null(Of(Cookie + "made-up", "Olive"));
        Assert.Null(Of(cookie[..^4] + (cookie.EndsWith("AAAA", StringComparison.Ordinal) ? "BBBB" : "AAAA"), "Olive"));
        Assert.Null(KnownDevice.Of(Browser(cookie, new EphemeralDataProtectionProvider()), "Olive"));
        Assert.NotNull(Of(cookie, "Olive"));
    }

    // No browser keeps more than about 4,000 characters.
    [Fact]
    public void A_mark_is_no_longer_than_a_browser_keeps()
    {
        string some = new('n', 2000), more = new('n', 3000);
        Assert.NotNull(Of(Kept(some, null), some));

        var cookie = Kept(more, null);

        Assert.True(cookie.Length > 4000, $"{cookie.Length} characters");
        Assert.Null(Of(cookie, more));
    }

    [Theory]
    [InlineData("http", false)]
    [InlineData("https", true)]
    public void A_mark_is_kept_from_scripts_and_other_sites_for_four_hundred_days(string scheme, bool isSecure)
    {
        var browser = Browser(null, _keys);
        browser.Request.Scheme = scheme;

        KnownDevice.Keep(browser, "Olive", null);

        var parts = $"{browser.Response.Headers.SetCookie}".Split("; ")[1..];
        string[] all = ["max-age=34560000", "path=/account", "samesite=strict", "httponly"]; // 400 days of 86,400 s
        Assert.Equal((isSecure ? all.Append("secure") : all).Order(), parts.Order());
    }

    // What goes back to the server: name and value.
    private string Kept(string name, string? device)
    {
        var browser = Browser(null, _keys);
        KnownDevice.Keep(browser, name, device);
        var header = $"{browser.Response.Headers.SetCookie}";
        Assert.StartsWith(Cookie, header, StringComparison.Ordinal);
        return header[..header.IndexOf(';')];
    }

    private string? Of(string? cookie, string name) => KnownDevice.Of(Browser(cookie, _keys), name);

    private static DefaultHttpContext Browser(string? cookie, IDataProtectionProvider keys)
    {
        var context = new DefaultHttpContext { RequestServices = new ServiceCollection().AddSingleton(keys).BuildServiceProvider() };
        if (cookie is not null) context.Request.Headers.Cookie = cookie;
        return context;
    }
}
