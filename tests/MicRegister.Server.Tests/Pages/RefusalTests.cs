using Bunit;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Shell;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Why something was not done stands until it is done.</summary>
public sealed class RefusalTests : PageContext
{
    [Fact]
    public async Task A_refusal_goes_once_it_was_put_right()
    {
        var page = Render<Noting>();
        var notices = Services.GetRequiredService<ISnackbar>();

        await page.InvokeAsync(() => page.Instance.Note(" "));
        Assert.Single(notices.ShownSnackbars);
        await page.InvokeAsync(() => page.Instance.Note("bent"));

        Assert.Empty(notices.ShownSnackbars);
        Assert.True(Live.Now.Count > 0, "nothing was stored");
    }

    private sealed class Noting : RegisterPage
    {
        public Task<bool> Note(string text) => Submit((r, s) => string.IsNullOrWhiteSpace(text)
            ? new Rejection(RejectionSort.Invalid, "Nothing was said.")
            : s.Of(r, new DeviceNoted(text), Subject.Device("A")));
    }
}
