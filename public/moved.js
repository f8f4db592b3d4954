// Leads from a page's former address to the present one, with all that stands behind it.
const { href } = document.getElementById('now');
location.replace(href + location.search + location.hash);
