"use strict";
// Shows the place that the controls stand at and hides the others. Every number is in the page.
{
  const form = document.getElementById("controls");
  const reach = document.getElementById("serves");
  const told = document.getElementById("serves-told");
  const said = document.getElementById("said");
  const places = Array.from(document.querySelectorAll("[data-place]"));
  const servings = Array.from(document.querySelectorAll("#stops li"), (stop) => stop.textContent);

  const move = () => {
    const version = form.querySelector("input[name=version]:checked").value;
    const here = `${version}-${reach.value}`;
    for (const place of places) {
      place.hidden = place.dataset.place !== here;
      if (!place.hidden) {
        said.textContent = place.querySelector(".said").textContent;
      }
    }
    told.textContent = servings[Number(reach.value)];
    reach.setAttribute("aria-valuetext", servings[Number(reach.value)]);
  };

  form.addEventListener("input", move);
  form.addEventListener("submit", (event) => event.preventDefault());
  document.getElementById("resting").hidden = true;
  form.hidden = false;
  move();
}
